"use client";

import type { ReactNode } from "react";
import { keyOf, type Draft } from "@/lib/park/edit/record";
import { pointsOfThing, thingsOf, type Thing } from "@/lib/park/edit/things";
import { numbersIn } from "@/lib/wording/format";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { Field, useAround } from "./field";
import { ruleFields, siteFields, slopeFields, type FieldSpec } from "./fields";
import { nameOf } from "../../../editing/names";
import { ThingPanel } from "./thing-panel";
import styles from "../../../editing/fields.module.css";

/** The id of the button that opens an entry of the list. */
export function entryId(key: string): string {
  return `entry-${key.replaceAll(".", "-")}`;
}

/** Everything on the site, each entry with its numbers folded below it. What is open here is what is chosen on the plan. */
export function ThingList({ onRemoved }: { readonly onRemoved: (name: string) => void }) {
  const { state: { history } } = useAround();
  const draft = history.present, things = thingsOf(draft);
  const of = (...kinds: Thing["kind"][]) => things.filter(({ kind }) => kinds.includes(kind)).map((thing) => <ThingEntry key={keyOf(thing.path)} thing={thing} onRemoved={onRemoved} />);
  return (
    <section className={styles.list} aria-labelledby="all-things">
      <h2 id="all-things" className="visually-hidden">{words.list}</h2>
      <Group title={words.groups.site}><PartEntry part="site" name={words.names} fields={siteFields(draft)} /></Group>
      <Group title={words.groups.ground}>
        {of("pad")}{of("lot")}{of("spot-heights")}
        {!draft.ground.heights && <PartEntry part="slopes" name={words.slopes} fields={slopeFields} />}
      </Group>
      <Group title={words.groups.obstacles} none={words.nothing.obstacles}>{of("obstacle")}</Group>
      <Group title={words.groups.hookups} none={words.nothing.hookups}>{of("hookup")}</Group>
      <Group title={words.groups.parking} none={words.nothing.parking}>{of("stall")}</Group>
      <Group title={words.groups.lines}>{of("road-edge", "exit-edge", "road", "exit-road", "driveable", "height-limit")}</Group>
      <Group title={words.groups.rules}><PartEntry part="rules" name={words.rules} fields={ruleFields} /></Group>
    </section>
  );
}

function Group({ title, none, children }: { readonly title: string; readonly none?: string; readonly children: ReactNode }) {
  const empty = Array.isArray(children) && children.length === 0;
  return <section className={styles.group}><h3>{title}</h3>{empty && none ? <p className={styles.none}>{none}</p> : children}</section>;
}

function ThingEntry({ thing, onRemoved }: { readonly thing: Thing; readonly onRemoved: (name: string) => void }) {
  const { state: { history }, units } = useAround();
  return (
    <Entry id={keyOf(thing.path)} name={nameOf(history.present, thing)} about={summaryOf(history.present, thing, units)}>
      <ThingPanel thing={thing} onRemoved={onRemoved} />
    </Entry>
  );
}

function PartEntry({ part, name, fields }: { readonly part: string; readonly name: string; readonly fields: readonly FieldSpec[] }) {
  return <Entry id={part} name={name} about={null} roots={fields.map(({ path }) => keyOf(path))}><div className={styles.fields}>{fields.map((spec) => <Field key={keyOf(spec.path)} spec={spec} />)}</div></Entry>;
}

interface EntryProps {
  readonly id: string;
  readonly name: string;
  readonly about: string | null;
  /** Where its faults are, if not below its own path. */
  readonly roots?: readonly string[];
  readonly children: ReactNode;
}

function Entry({ id, name, about, roots = [id], children }: EntryProps) {
  const { state: { selected, unread }, faults, send } = useAround();
  const open = selected === id, within = (key: string) => roots.some((root) => key === root || key.startsWith(`${root}.`));
  const wrong = faults.some(({ key }) => within(key)) || Object.keys(unread).some(within);
  return (
    <div className={open ? styles.open : styles.entry}>
      <h4>
        <button type="button" id={entryId(id)} aria-expanded={open} aria-controls={`${entryId(id)}-panel`} onClick={() => send({ do: "select", key: open ? null : id })}>
          <span className={styles.name}>{name}</span>
          {about && <span className={styles.about}>{about}</span>}
          {wrong && <span className={styles.wrong}>{words.wrong}</span>}
        </button>
      </h4>
      {open && <div id={`${entryId(id)}-panel`} className={styles.panel}>{children}</div>}
    </div>
  );
}

function summaryOf(draft: Draft, thing: Thing, units: "ft-in" | "metric"): string {
  const points = pointsOfThing(draft, thing), [first] = points;
  if (thing.shape === "place" && first) return words.spot(first[0], first[1], numbersIn(units, ","));
  if (thing.kind === "obstacle" || thing.kind === "stall") {
    const x = points.reduce((sum, p) => sum + p[0], 0) / points.length, y = points.reduce((sum, p) => sum + p[1], 0) / points.length;
    return words.spot(x, y, numbersIn(units, ","));
  }
  return thing.shape === "ring" ? words.summary.corners(points.length) : words.summary.points(points.length);
}
