import { catalogueOf } from "@/lib/wording";
import { UnitsLinks } from "../../components/staff-nav/units-links";
import { addressOf, EVERY_LOOP, loopsIn, orders, rigChoices, type Choice } from "./choice";
import type { FitsContext } from "./context";
import styles from "./chooser.module.css";

/** Which rigs and sites, in which order: a form that only asks, so that every choice is an address. */
export function Chooser({ choice, context: { sites, rigs } }: { readonly choice: Choice; readonly context: FitsContext }) {
  const { insight: { choose }, things, pages } = catalogueOf();
  const nameOf = (which: Choice["rigs"]) => (which === "park" ? choose.park(rigs.length) : which === "all" ? choose.all : choose.kind(things.rigKinds[which]));
  const loops = loopsIn(sites);
  return (
    // With its choice as key the form shows what the address says, also when the browser goes back to it.
    <form key={addressOf(choice)} action="/manage/fits" method="get" className={styles.form}>
      <Select name="rigs" label={choose.rigs} value={choice.rigs} options={rigChoices.map((which) => [which, nameOf(which)])} />
      {loops.length > 1 && <Select name="loop" label={choose.loop} value={choice.loop ?? EVERY_LOOP} options={[[EVERY_LOOP, choose.everyLoop], ...loops.map((loop) => [loop, choose.oneLoop(loop)] as const)]} />}
      <Select name="sites" label={choose.sites} value={choice.sites} options={orders.map((order) => [order, choose.siteOrders[order]])} />
      <Select name="across" label={choose.across} value={choice.across} options={orders.map((order) => [order, choose.rigOrders[order]])} />
      <input type="hidden" name="units" value={choice.units} />
      <button type="submit">{choose.show}</button>
      <UnitsLinks units={choice.units} names={pages.units} hrefOf={(units) => addressOf({ ...choice, units })} />
    </form>
  );
}

interface SelectProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, name: string])[];
}

function Select({ name, label, value, options }: SelectProps) {
  return (
    <div className={styles.field}>
      <label htmlFor={`choose-${name}`}>{label}</label>
      <select id={`choose-${name}`} name={name} defaultValue={value}>{options.map(([id, text]) => <option key={id} value={id}>{text}</option>)}</select>
    </div>
  );
}
