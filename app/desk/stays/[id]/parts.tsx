import { dateIn, daysBetween, judgeMove, mayChange, outcomes, stayStates, type StayState } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import { ActForm } from "../act-form";
import { KeptFold, KeptInput, KeptRadio, KeptSelect, KeptText } from "../kept-fields";
import { advanceFromForm, guestFromForm, lendFromForm, linkFromForm, moveFromForm, nightsFromForm, noteFromForm, payFromForm, returnFromForm, rigFromForm, togetherFromForm } from "../actions";
import type { StayPageData } from "./read-stay";
import styles from "../stays.module.css";

const { deskStays: { stay: words, moves, movesBack, outcome, today: todayWords }, stays: stayWords, verdicts } = catalogueOf();

interface PartProps {
  readonly data: StayPageData;
}

function Carried({ data: { stay } }: PartProps) {
  return <><input type="hidden" name="stay" value={stay.id} /><input type="hidden" name="version" value={stay.version} /></>;
}

/** What the table of moves lets the desk do from here, the usual thing first. */
export function Next({ data }: PartProps) {
  const { stay, context, account, cost, currency, loans } = data;
  const facts = { guestsMay: context.settings.guestsMay, daysToArrival: daysBetween(context.today, stay.nights.arrive), runOut: stay.until !== null && stay.until <= context.now };
  const usual: readonly StayState[] = ["arrived", "departed", "booked", "requested", "held", "no-show", "cancelled"];
  const may = usual.filter((to) => stayStates.includes(to) && judgeMove(stay.state, to, "desk", facts).allowed && (to !== "arrived" || stay.site !== null));
  const money = (amount: number) => stayWords.money(amount, currency);
  const goesBack = (stay.state === "arrived" || stay.state === "departed" || stay.state === "no-show" || stay.state === "cancelled");
  const nameOf = (to: StayState) => (goesBack && to === "booked" ? (stay.state === "arrived" ? movesBack.booked : stay.state === "cancelled" ? movesBack.cancelled : moves.booked) : stay.state === "departed" && to === "arrived" ? movesBack.arrived : stay.state === "no-show" && to === "arrived" ? movesBack["no-show"] : moves[to]);
  if (may.length === 0 || stay.erased) return null;
  return (
    <section aria-labelledby="next">
      <h2 id="next">{words.next}</h2>
      {may.map((to, i) => to === "departed" ? (
        <ActForm key={to} action={advanceFromForm} className={styles.fields} label={moves.departed}>
          <Carried data={data} /><input type="hidden" name="to" value="departed" />
          <label>{outcome.label}<KeptSelect name="outcome" defaultValue="as-planned">{outcomes.map((how) => <option key={how} value={how}>{stayWords.outcomes[how]}</option>)}</KeptSelect></label>
          <label className={styles.grow}>{outcome.note}<KeptInput name="outcome-note" maxLength={500} /></label>
          <button type="submit" className={styles.main}>{moves.departed}</button>
          {loans.some(({ returnedAt }) => returnedAt === null) && <p className={styles.faults}>{words.stillOut}</p>}
        </ActForm>
      ) : (
        <ActForm key={to} action={advanceFromForm} className={styles.act} label={nameOf(to)}>
          <Carried data={data} /><input type="hidden" name="to" value={to} />
          <button type="submit" className={i === 0 ? styles.main : undefined}>{nameOf(to)}</button>
          {to === "cancelled" && account.quotes.length > 0 && <p className={styles.note}>{cost.kept === 0 && cost.back === 0 ? words.cancelFree : words.cancelCost(money(cost.kept), money(cost.back), money(cost.owed))}</p>}
        </ActForm>
      ))}
    </section>
  );
}

/** Another site: what is free for the nights, best fit first; a poor fit with a reason. */
export function Moving({ data }: PartProps) {
  const { stay, found, context } = data;
  if (!found || !mayChange(stay.state, "site", "desk") || stay.nights.depart <= context.today) return null;
  const offered = found.offered.filter(({ site }) => site.id !== stay.site);
  return (
    <section id="move" aria-labelledby="move-head">
      <h2 id="move-head">{words.moveHead}</h2>
      <ActForm action={moveFromForm} label={words.moveHead}>
        <Carried data={data} />
        {offered.length === 0 ? <p>{words.moveNone}</p> : (
          <fieldset>
            <legend>{words.moveLead}</legend>
            <ul className={styles.sites}>{offered.slice(0, 12).map(({ site, result }) => <li key={site.id}><label><KeptRadio name="site" value={site.id} /> <span><strong>{site.label ?? site.id}</strong> {verdicts[result.verdict].label}{result.tight && `, ${catalogueOf().tightWord}`}</span></label></li>)}</ul>
          </fieldset>
        )}
        <KeptFold summary={words.poorHead}>
          <ul className={styles.sites}>{found.refused.filter(({ site }) => site !== stay.site && found.free.has(site)).map(({ site, verdict }) => <li key={site}><label><KeptRadio name="site" value={site} /> <span><strong>{data.labelOf(site)}</strong> {verdicts[verdict].label}</span></label></li>)}</ul>
        </KeptFold>
        <div className={styles.fields}>
          <label className={styles.grow}>{words.why}<KeptInput name="reason" maxLength={500} /></label>
          <button type="submit" className={styles.main}>{words.moveTo}</button>
        </div>
      </ActForm>
    </section>
  );
}

/** Other nights, another rig. */
export function Edits({ data }: PartProps) {
  const { stay } = data;
  const [nights, rig] = [mayChange(stay.state, "dates", "desk"), mayChange(stay.state, "rig", "desk")];
  return (
    <>
      {nights && (
        <section aria-labelledby="nights-head">
          <h2 id="nights-head">{words.nightsHead}</h2>
          <ActForm action={nightsFromForm} className={styles.fields} label={words.nightsHead}>
            <Carried data={data} />
            <label>{words.arrive}<KeptInput type="date" name="arrive" defaultValue={stay.nights.arrive} key={stay.nights.arrive} readOnly={stay.state === "arrived"} /></label>
            <label>{words.depart}<KeptInput type="date" name="depart" defaultValue={stay.nights.depart} key={stay.nights.depart} /></label>
            <button type="submit">{words.change}</button>
            <p className={styles.note}>{words.addedCost}</p>
          </ActForm>
        </section>
      )}
      {rig && (
        <section aria-labelledby="rig-head">
          <h2 id="rig-head">{words.rigHead}</h2>
          <ActForm action={rigFromForm} className={styles.fields} label={words.rigHead}>
            <Carried data={data} />
            <label>{words.rigField}<KeptInput name="call" maxLength={80} autoComplete="off" placeholder="tt 31" /></label>
            <label className={styles.grow}>{words.why}<KeptInput name="reason" maxLength={500} /></label>
            <button type="submit">{words.rigKeep}</button>
            <p className={styles.note}>{words.rigLead}</p>
          </ActForm>
        </section>
      )}
    </>
  );
}

export function Guest({ data }: PartProps) {
  const { stay } = data;
  if (!mayChange(stay.state, "guest", "desk") || stay.erased) return null;
  const { name = "", email = "", phone = "", plate = "" } = stay.guest ?? {};
  return (
    <section aria-labelledby="guest-head">
      <h2 id="guest-head">{words.guestHead}</h2>
      <ActForm key={stay.version} action={guestFromForm} className={styles.fields} label={words.guestHead}>
        <Carried data={data} />
        <label className={styles.grow}>{words.name}<KeptInput name="name" defaultValue={name} maxLength={80} autoComplete="off" /></label>
        <label className={styles.grow}>{words.email}<KeptInput type="email" name="email" defaultValue={email} maxLength={200} autoComplete="off" /></label>
        <label>{words.phone}<KeptInput type="tel" name="phone" defaultValue={phone} maxLength={40} autoComplete="off" /></label>
        <label>{words.plate}<KeptInput name="plate" defaultValue={plate} maxLength={20} size={10} autoComplete="off" /></label>
        <button type="submit">{words.save}</button>
      </ActForm>
    </section>
  );
}

export function Money({ data }: PartProps) {
  const { account, currency, context } = data;
  const money = (amount: number) => stayWords.money(amount, currency);
  return (
    <section aria-labelledby="money-head">
      <h2 id="money-head">{words.moneyHead}</h2>
      {account.quotes.length === 0 ? <p>{words.noPrice}</p> : (
        <table className={styles.money}>
          <tbody>
            {account.quotes.flatMap((quote, q) => quote.lines.map((line, i) => <tr key={`${q} ${i}`}><th scope="row">{stayWords.line(line, currency)}</th><td>{money(line.amount)}</td></tr>))}
            <tr className={styles.sum}><th scope="row">{words.total}</th><td>{money(account.total)}</td></tr>
            {account.payments.map(({ amount, purpose, means, at }, i) => <tr key={i}><th scope="row">{words.purposes[purpose]}, {means}, {stayWords.day(dateIn(context.settings.zone, at))}</th><td>{money(amount)}</td></tr>)}
            <tr className={styles.sum}><th scope="row">{words.paid}</th><td>{money(account.paid)}</td></tr>
            {account.depositDue > 0 && <tr><th scope="row">{words.due}</th><td>{money(account.depositDue)}</td></tr>}
          </tbody>
        </table>
      )}
      <p className={styles.note}>{stayWords.rounding}</p>
      <ActForm action={payFromForm} className={styles.fields} label={words.payHead} fold={words.payHead}>
        <Carried data={data} />
        <label>{words.amount} ({currency})<KeptInput name="amount" inputMode="decimal" size={8} autoComplete="off" /></label>
        <label>{words.purpose}<KeptSelect name="purpose">{(["deposit", "stay", "refund"] as const).map((purpose) => <option key={purpose} value={purpose}>{words.purposes[purpose]}</option>)}</KeptSelect></label>
        <label className={styles.grow}>{words.means}<KeptInput name="means" maxLength={80} placeholder={words.meansHint} autoComplete="off" /></label>
        <button type="submit">{words.note2}</button>
      </ActForm>
    </section>
  );
}

export function Notes({ data }: PartProps) {
  return (
    <section aria-labelledby="notes-head">
      <h2 id="notes-head">{words.notesHead}</h2>
      {data.notes.length === 0 ? <p>{words.noNotes}</p> : <ul className={styles.log}>{data.notes.map(({ at, by, text }) => <li key={at}>{text} <span className={styles.when}>{timeOf(data, at)}, {by}</span></li>)}</ul>}
      <ActForm action={noteFromForm} className={styles.fields} label={words.notesHead}>
        <Carried data={data} />
        <label className={styles.grow}>{words.noteField}<KeptText name="text" rows={2} maxLength={2000} /></label>
        <button type="submit">{words.addNote}</button>
      </ActForm>
    </section>
  );
}

export function Loans({ data }: PartProps) {
  const { loans, stock, context, stay } = data;
  const day = (at: number) => stayWords.day(dateIn(context.settings.zone, at));
  return (
    <section aria-labelledby="loans-head">
      <h2 id="loans-head">{words.loansHead}</h2>
      {loans.length === 0 ? <p>{words.nothingLent}</p> : (
        <ul className={styles.log}>
          {loans.map((loan) => (
            <li key={loan.id}>
              {loan.name}, {words.lentOn(day(loan.at))}{loan.returnedAt !== null ? `, ${words.backOn(day(loan.returnedAt))}` : <ActForm action={returnFromForm} className={styles.act}><Carried data={data} /><input type="hidden" name="loan" value={loan.id} /> <button type="submit">{words.returned}</button></ActForm>}
            </li>
          ))}
        </ul>
      )}
      {stock.length === 0 ? <p className={styles.note}>{words.nothingToLend}</p> : (stay.state === "arrived" || stay.state === "booked") && (
        <ActForm action={lendFromForm} className={styles.fields} label={words.lend}>
          <Carried data={data} />
          <label>{words.lend}<KeptSelect name="item">{stock.map(({ id, name, count, out }) => <option key={id} value={id}>{name} ({words.left(out, count)})</option>)}</KeptSelect></label>
          <button type="submit">{words.lend}</button>
        </ActForm>
      )}
    </section>
  );
}

export function Together({ data }: PartProps) {
  const { stay, companions, near, labelOf } = data;
  return (
    <section aria-labelledby="together-head">
      <h2 id="together-head">{words.togetherHead}</h2>
      {companions.length > 0 && <ul className={styles.log}>{companions.map(({ id, guest, reference, site }) => <li key={id}><a href={`/desk/stays/${id}`}>{guest ?? words.nameless}</a> {reference}, {site ? labelOf(site) : todayWords.noSite}</li>)}</ul>}
      {near.length > 0 && <p>{words.near(near.map(labelOf))}</p>}
      <ActForm action={togetherFromForm} className={styles.fields} label={words.join}>
        <Carried data={data} />
        <label>{words.joinField}<KeptInput name="reference" size={8} maxLength={12} autoComplete="off" /></label>
        <button type="submit">{words.join}</button>
        {stay.together !== null && <button type="submit" name="part" value="yes">{words.part}</button>}
      </ActForm>
    </section>
  );
}

export function Private({ data }: PartProps) {
  return (
    <section aria-labelledby="link-head">
      <h2 id="link-head">{words.linkHead}</h2>
      <ActForm action={linkFromForm} className={styles.fields} label={words.linkHead}>
        <Carried data={data} />
        <button type="submit">{words.linkNew}</button>
        <button type="submit" name="end" value="yes">{words.linkRevoke}</button>
      </ActForm>
    </section>
  );
}

/** Columns as people know them; what is not here is the machine's own. */
const fieldNames: Readonly<Record<string, string>> = {
  state: words.state.toLowerCase(), arrive: words.arrive.toLowerCase(), depart: words.depart.toLowerCase(), site_id: words.site.toLowerCase(), rig: words.rig.toLowerCase(),
  guest_name: words.name.toLowerCase(), guest_email: words.email, guest_phone: words.phone.toLowerCase(), plate: words.plate.toLowerCase(), note: words.noteField.toLowerCase(), together: words.togetherHead.toLowerCase(),
};

export function History({ data }: PartProps) {
  return (
    <section aria-labelledby="history-head">
      <h2 id="history-head">{words.historyHead}</h2>
      <ul className={styles.log}>
        {data.history.map(({ at, by, who, reason, before, after }, i) => {
          const changed = Object.keys(after as object).flatMap((column) => fieldNames[column] ?? []);
          const state = (after as { state?: StayState }).state;
          if (before !== null && changed.length === 0) return null;
          return (
            <li key={i}>
              {words.by[by]}{who && by !== "guest" ? ` (${who})` : ""} {before === null ? words.opened : words.changedWhat([...new Set(changed)])}{state ? `: ${stayWords.states[state].toLowerCase()}` : ""}{reason ? `. ${reason}` : ""} <span className={styles.when}>{timeOf(data, at)}</span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function timeOf({ context }: StayPageData, at: number): string {
  return new Date(at).toLocaleString("en-US", { month: "short", day: "numeric", hour: "numeric", minute: "2-digit", timeZone: context.settings.zone });
}
