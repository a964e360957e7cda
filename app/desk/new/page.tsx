import { randomUUID } from "node:crypto";
import type { Metadata } from "next";
import { one, type Params } from "../../components/rig-form/params";
import { staffContext } from "../../manage/context";
import { requireDesk } from "../../staff-session";
import { ActForm } from "../stays/act-form";
import { KeptFold, KeptInput, KeptRadio, KeptSelect } from "../stays/kept-fields";
import { bookFromForm } from "./actions";
import { AskAsTyped } from "./ask-as-typed";
import { PickByLabel } from "./pick-by-label";
import { askedFields, fromParams, readAsked, sitesFor, type AskedField, type AskedStay } from "./read-asked";
import type { Found } from "@/lib/jobs/stay-fit";
import { countNights, type IsoDate } from "@/lib/stays";
import { getStayContext } from "@/lib/store/park-settings";
import { catalogueOf } from "@/lib/wording";
import { formatLength } from "@/lib/wording/lengths";
import styles from "../stays/stays.module.css";
import own from "./new.module.css";

const { deskNew: words, stays: stayWords, staff: { table }, verdicts, things, tightWord } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** A stay on the phone: what the caller says in one line of fields, then the free sites, then the name. */
export default async function NewStayPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireDesk();
  const params = await searchParams;
  const [context, stay] = await Promise.all([staffContext(), getStayContext(actor.park)]);
  if (!context || !stay) return <main className={styles.page}><h1>{words.title}</h1><p>{table.noPark}</p></main>;
  // While somebody types, half a word is no fault yet, and the focus stays where it is.
  const typing = one(params.typing) === "yes";
  const read = readAsked(fromParams(params), context.park, stay.today);
  const asked = typing ? { ...read, faults: {} } : read;
  const found = asked.ready ? await sitesFor(context.park, asked.ready) : null;
  const labels = new Map(context.surveyed.map(({ site }) => [site.id, site.label ?? site.id]));
  return (
    <main className={styles.page}>
      <div className={styles.head}><h1>{words.title}</h1><p>{words.lead}</p></div>
      <AskAsTyped className={own.asked} needs={["call", "arrive", "depart"]}>
        <Typed asked={asked} field="call" size={12} focus={!asked.ready} placeholder="tt 31" />
        <Typed asked={asked} field="arrive" size={9} placeholder="jun 18" />
        <Typed asked={asked} field="depart" size={9} placeholder="2" />
        <Typed asked={asked} field="adults" size={3} placeholder="2" />
        <Typed asked={asked} field="children" size={3} placeholder="0" />
        <Typed asked={asked} field="pets" size={3} placeholder="0" />
        <label>{words.loop}<select name="loop" defaultValue={asked.texts.loop}><option value="">{words.anyLoop}</option>{context.loops.map(({ id, name }) => <option key={id} value={id}>{name ? `${id} · ${name}` : id}</option>)}</select></label>
        <button type="submit">{words.show}</button>
      </AskAsTyped>
      {asked.ready && found && <Booking asked={asked} ready={asked.ready} found={found} labels={labels} today={stay.today} units={context.park.units} typing={typing} />}
    </main>
  );
}

function Typed({ asked, field, size, focus, placeholder }: { readonly asked: AskedStay; readonly field: AskedField; readonly size: number; readonly focus?: boolean; readonly placeholder: string }) {
  const fault = asked.faults[field];
  return (
    <label className={fault ? own.faulty : undefined}>
      {words[field]}
      {/* The page is for one thing, and the caller is on the line. */}
      <input name={field} size={size} defaultValue={asked.texts[field]} placeholder={placeholder} autoComplete="off" autoCapitalize="none" spellCheck={false} maxLength={80} autoFocus={focus} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${field}-fault` : undefined} />
      {fault && <span id={`${field}-fault`} className={own.fault}>{fault}</span>}
    </label>
  );
}

interface BookingProps {
  readonly asked: AskedStay;
  readonly ready: NonNullable<AskedStay["ready"]>;
  readonly found: Found;
  readonly labels: ReadonlyMap<string, string>;
  readonly today: IsoDate;
  readonly units: "ft-in" | "metric";
  readonly typing: boolean;
}

function Booking({ asked, ready: { rig, nights }, found, labels, today, units, typing }: BookingProps) {
  const [first] = found.offered;
  return (
    <ActForm action={bookFromForm} className={own.booking} label={words.title}>
      {askedFields.map((field) => <input key={field} type="hidden" name={field} value={asked.texts[field]} />)}
      <input type="hidden" name="key" value={randomUUID()} />
      <p role="status" className={own.told}>
        <strong>{things.rigKinds[rig.kind]}, {formatLength(rig.body.length + (rig.hitch?.length ?? 0), units, "nearest")}. {stayWords.span(nights)}.</strong> {found.offered.length > 0 ? words.free(found.offered.length) : words.noneFree}
        {found.taken.length > 0 && <> {words.takenList(found.taken.slice(0, 8).map(({ site }) => labels.get(site) ?? site).join(", "))}</>}
      </p>
      <div className={own.who}>
        <label className={styles.grow}>{words.name}<KeptInput name="name" data-next required maxLength={80} autoComplete="off" autoFocus={first !== undefined && !typing} /></label>
        <label>{words.phone}<KeptInput name="phone" type="tel" maxLength={40} autoComplete="off" size={14} /></label>
        <label>{words.plate}<KeptInput name="plate" maxLength={20} size={9} autoComplete="off" /></label>
        <label className={styles.grow}>{words.email}<KeptInput name="email" type="email" maxLength={200} autoComplete="off" /></label>
        <label className={styles.grow}>{words.note}<KeptInput name="note" maxLength={500} autoComplete="off" /></label>
        <label>{words.as}<KeptSelect name="as" defaultValue="booked">{(["booked", ...(nights.arrive <= today ? (["arrived"] as const) : []), "requested", "held"] as const).map((kind) => <option key={kind} value={kind}>{words.kinds[kind]}</option>)}</KeptSelect></label>
        <button type="submit" className={styles.main}>{words.book}</button>
      </div>
      {/* Made anew with every other question, so that no site is taken that is no longer shown. */}
      <PickByLabel key={JSON.stringify(asked.texts)} className={own.sites}>
        <legend>{words.sites}</legend>
        <ul className={styles.sites}>
          {found.offered.map(({ site, result, quote }, i) => (
            <li key={site.id}>
              <label>
                <KeptRadio name="site" value={site.id} data-label={labels.get(site.id)} defaultChecked={i === 0} />
                <span><strong>{labels.get(site.id)}</strong> {verdicts[result.verdict].label}{result.tight && `, ${tightWord}`}. {quote?.ok ? `${stayWords.money(quote.quote.total, quote.quote.currency)}${countNights(nights) > 1 ? ` (${stayWords.money(Math.round(quote.quote.total / countNights(nights)), quote.quote.currency)} / ${stayWords.nights(1).replace("1 ", "")})` : ""}` : quote ? quote.faults.map(stayWords.fault).join(" ") : words.price}</span>
              </label>
            </li>
          ))}
          <li><label><KeptRadio name="site" value="" defaultChecked={first === undefined} /> <span>{words.any}</span></label></li>
        </ul>
        <KeptFold summary={words.poor}>
          <ul className={styles.sites}>{found.refused.filter(({ site }) => found.free.has(site)).map(({ site, verdict }) => <li key={site}><label><KeptRadio name="site" value={site} data-label={labels.get(site) ?? site} /> <span><strong>{labels.get(site) ?? site}</strong> {verdicts[verdict].label}</span></label></li>)}</ul>
          <label>{words.why}<KeptInput name="reason" maxLength={500} autoComplete="off" /></label>
        </KeptFold>
      </PickByLabel>
    </ActForm>
  );
}
