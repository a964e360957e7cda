"use client";

import { useActionState, useEffect, useRef, type ReactNode } from "react";
import { manageRates } from "@/lib/wording/en/manage-rates";
import { editRatesAction } from "./actions";
import type { Editing } from "./editing";
import { FieldsOf, Row, Text, Tick, Choice } from "./fields";
import { Classes, Seasons } from "./season-fields";
import { ReviewPart } from "./review-part";
import styles from "./rates.module.css";

const { form: words } = manageRates;

/** The rates as they are typed. Adding a row, looking and saving are buttons of one form, so that all of it works without script. */
export function RatesForm({ start }: { readonly start: Editing }) {
  const [editing, send, sending] = useActionState(editRatesAction, start);
  const { draft, basedOn, faults, said, review } = editing, changes = review !== null && review.lines.length > 0;
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (editing === start) return;
    const first = form.current?.querySelector<HTMLElement>("[aria-invalid=true]") ?? form.current?.querySelector<HTMLElement>("[data-review], [data-said]");
    first?.focus();
  }, [editing, start]);
  return (
    <form ref={form} action={send} className={styles.form} noValidate aria-busy={sending || undefined} key={JSON.stringify(editing)}>
      {/* What Enter presses: the first button of a form. */}
      <button type="submit" name="do" value="review" className={styles.first} tabIndex={-1} aria-hidden="true">{words.review}</button>
      <input type="hidden" name="basedOn" value={basedOn} />
      {said && <p role={Object.keys(faults).length > 0 ? "alert" : "status"} className={styles.said} tabIndex={-1} data-said="">{said}</p>}
      {review && <ReviewPart review={review} />}
      <FieldsOf faults={faults}>
        <Seasons draft={draft} />
        <Classes draft={draft} />
        <Rows title={words.longStays} list="longStay" add={words.addLongStay} count={draft.longStay.length} remove={(i) => words.rule(i + 1)}>
          {(i) => <><Text name={`longStay.${i}.nights`} label={words.fromNights} value={draft.longStay[i]!.nights} short /><Text name={`longStay.${i}.off`} label={words.off} value={draft.longStay[i]!.off} short /></>}
        </Rows>
        <fieldset className={styles.part}>
          <legend>{words.extras}</legend>
          <p className={styles.hint}>{words.extrasHint}</p>
          {(["vehicle", "person", "pet"] as const).map((kind) => (
            <Row key={kind} label={words.extraNames[kind]}>
              <strong className={styles.rowName}>{words.extraNames[kind]}</strong>
              <Text name={`extras.${kind}.included`} label={words.included} value={draft.extras[kind].included} short />
              <Text name={`extras.${kind}.each`} label={words.each} value={draft.extras[kind].each} short />
              <Choice name={`extras.${kind}.per`} label={words.per} value={draft.extras[kind].per} among={[["night", words.perNames.night], ["stay", words.perNames.stay]]} />
            </Row>
          ))}
        </fieldset>
        <Rows title={words.fees} list="fees" add={words.addFee} count={draft.fees.length} remove={(i) => draft.fees[i]!.name || words.newOne("fee")}>
          {(i) => {
            const { id, name, amount, per } = draft.fees[i]!;
            return <><input type="hidden" name={`card.fees.${i}.id`} value={id} /><Text name={`fees.${i}.name`} label={words.name} value={name} /><Text name={`fees.${i}.amount`} label={words.amount} value={amount} short /><Choice name={`fees.${i}.per`} label={words.per} value={per} among={Object.entries(words.perNames)} /></>;
          }}
        </Rows>
        <Rows title={words.taxes} list="taxes" add={words.addTax} count={draft.taxes.length} remove={(i) => draft.taxes[i]!.name || words.newOne("tax")}>
          {(i) => {
            const { id, name, rate, on, upToNights } = draft.taxes[i]!;
            return <><input type="hidden" name={`card.taxes.${i}.id`} value={id} /><Text name={`taxes.${i}.name`} label={words.name} value={name} /><Text name={`taxes.${i}.rate`} label={words.rate} value={rate} short /><Tick name={`taxes.${i}.on`} label={words.on} values={on} among={Object.entries(words.onNames)} /><Text name={`taxes.${i}.upToNights`} label={words.upTo} value={upToNights} short /></>;
          }}
        </Rows>
        <fieldset className={styles.part}>
          <legend>{words.deposit}</legend>
          <Row label={words.deposit}>
            <Choice name="deposit.kind" label={words.depositKind} value={draft.deposit.kind} among={Object.entries(words.depositKinds)} />
            <Text name="deposit.value" label={words.depositValue} value={draft.deposit.value} short />
          </Row>
          <Row label={words.currency}>
            <Text name="currency" label={words.currency} value={draft.currency} hint={words.currencyHint} short />
            <Text name="minNights" label={words.least} value={draft.minNights} short />
          </Row>
        </fieldset>
      </FieldsOf>
      {review && <input type="hidden" name="looked" value={review.looked} />}
      <p className={styles.actions}>
        {changes && <button type="submit" name="do" value="save" className={styles.strong}>{words.save}</button>}
        <button type="submit" name="do" value="review" className={changes ? styles.quiet : styles.strong} aria-disabled={sending || undefined}>{sending ? words.busy : words.review}</button>
      </p>
    </form>
  );
}

interface RowsProps {
  readonly title: string;
  readonly list: string;
  readonly add: string;
  readonly count: number;
  readonly remove: (i: number) => string;
  readonly children: (i: number) => ReactNode;
}

/** Rows of one kind, each with a button that takes it out, and one that adds another. */
function Rows({ title, list, add, count, remove, children }: RowsProps) {
  return (
    <fieldset className={styles.part}>
      <legend>{title}</legend>
      {Array.from({ length: count }, (_, i) => (
        <Row key={i} label={remove(i)}>
          {children(i)}
          <button type="submit" name="do" value={`remove ${list} ${i}`} className={styles.quiet}>{words.remove(remove(i))}</button>
        </Row>
      ))}
      <button type="submit" name="do" value={`add ${list}`} className={styles.quiet}>{add}</button>
    </fieldset>
  );
}
