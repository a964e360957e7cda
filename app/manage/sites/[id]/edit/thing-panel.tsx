"use client";

import { addPoint, canRemove, removePoint, removeThing } from "@/lib/park/edit/change";
import { keyOf, readAt, writeAt, type Path } from "@/lib/park/edit/record";
import { giveCorners, makeRound } from "@/lib/park/edit/shape";
import type { Thing } from "@/lib/park/edit/things";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { domId, Field, useAround, useFault } from "./field";
import { fieldsOf, gradeFields, pointFields } from "./fields";
import { nameOf } from "../../../editing/names";
import styles from "../../../editing/fields.module.css";

/** Everything that is known of one thing, as fields, and what can be done with it. */
export function ThingPanel({ thing, onRemoved }: { readonly thing: Thing; readonly onRemoved: (name: string) => void }) {
  const { state: { history }, send } = useAround();
  const draft = history.present, name = nameOf(draft, thing);
  const specs = fieldsOf(draft, thing);
  const take = () => {
    send({ do: "change", draft: removeThing(draft, thing), select: null, shifted: true });
    onRemoved(name);
  };
  return (
    <>
      <RingFault thing={thing} />
      {specs.length > 0 && <div className={styles.fields}>{specs.map((spec) => <Field key={`${keyOf(spec.path)} ${"sort" in spec ? spec.sort : ""}`} spec={spec} />)}</div>}
      <Points thing={thing} />
      {thing.kind === "road" && <Grades />}
      <div className={styles.buttons}>
        {thing.kind === "obstacle" && readAt(draft, [...thing.path, "kind"]) !== "tree" && (
          thing.shape === "place"
            ? <button type="button" className={styles.quiet} onClick={() => send({ do: "change", draft: giveCorners(draft, thing.path), shifted: true })}>{words.giveCorners}</button>
            : <button type="button" className={styles.quiet} onClick={() => send({ do: "change", draft: makeRound(draft, thing.path), shifted: true })}>{words.makeRound}</button>
        )}
        {canRemove(thing) && <button type="button" className={styles.quiet} onClick={take}>{words.remove(name)}</button>}
      </div>
    </>
  );
}

/** What is wrong with an outline as a whole stands above its corners. */
function RingFault({ thing }: { readonly thing: Thing }) {
  const list = thing.shape === "place" ? thing.path : thing.handles[0]?.slice(0, -1) ?? thing.path;
  const fault = useFault({ path: list });
  return fault ? <p id={`${domId(keyOf(list))}-fault`} tabIndex={-1} className={styles.fault}>{fault}</p> : null;
}

function Points({ thing }: { readonly thing: Thing }) {
  const { state: { history }, send } = useAround();
  const draft = history.present, withHeight = thing.kind === "spot-heights";
  const rowName = (i: number) => (thing.shape === "place" ? words.row.place : withHeight ? words.row.spot(i) : thing.shape === "ring" ? words.row.corner(i) : words.row.point(i));
  const heads = pointFields(thing.path, withHeight);
  return (
    <table className={styles.points}>
      <caption className="visually-hidden">{nameOf(draft, thing)}</caption>
      <thead><tr><td />{[heads.into, heads.left, heads.height].map((head) => head && <th key={head.label} scope="col">{head.label}</th>)}{thing.free && <td />}</tr></thead>
      <tbody>
        {thing.handles.map((path, i) => (
          <tr key={i}>
            <th scope="row">{rowName(i)}</th>
            <PointCells path={path} withHeight={withHeight} row={rowName(i)} />
            {thing.free && (
              <td className={styles.rowButtons}>
                <button type="button" aria-label={words.addAfter(rowName(i))} title={words.addAfter(rowName(i))} onClick={() => send({ do: "change", draft: addPoint(draft, thing, i), shifted: true })}>{words.addShort}</button>
                <button type="button" aria-label={words.takeOut(rowName(i))} title={words.takeOut(rowName(i))} disabled={thing.handles.length <= thing.fewest} onClick={() => send({ do: "change", draft: removePoint(draft, thing, i), shifted: true })}>{words.removeShort}</button>
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function PointCells({ path, withHeight, row }: { readonly path: Path; readonly withHeight: boolean; readonly row: string }) {
  const { into, left, height } = pointFields(path, withHeight);
  return <>{[into, left, height].map((spec) => spec && <td key={keyOf(spec.path)}><Field spec={spec} spoken={`${row}: ${spec.label}`} /></td>)}</>;
}

function Grades() {
  const { state: { history }, send } = useAround();
  const draft = history.present, grades = draft.approach?.gradeBreaks ?? [];
  return (
    <fieldset className={styles.grades}>
      <legend>{words.fields.grades}</legend>
      {grades.map((_, i) => (
        <div key={i} className={styles.fields}>
          {gradeFields(i).map((spec) => <Field key={keyOf(spec.path)} spec={spec} />)}
          <button type="button" className={styles.quiet} onClick={() => send({ do: "change", draft: writeAt(draft, ["approach", "gradeBreaks", i], undefined), shifted: true })}>{words.fields.removeGrade(i)}</button>
        </div>
      ))}
      <button type="button" className={styles.quiet} onClick={() => send({ do: "change", draft: writeAt(draft, ["approach", "gradeBreaks", grades.length], { at: 0, change: 0 }), shifted: true })}>{words.fields.addGrade}</button>
    </fieldset>
  );
}
