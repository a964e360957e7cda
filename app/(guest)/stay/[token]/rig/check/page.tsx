import type { Metadata } from "next";
import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { VerdictMark } from "../../../../../components/verdict/mark";
import type { Params } from "../../../../../components/rig-form/params";
import { SendForm } from "../../../../send-form";
import { Asks, Bring, ReasonList } from "../../../../ranking";
import type { FitResult } from "@/lib/fit";
import { findSites, fitOn, guestMayHave, type Offered } from "@/lib/jobs/stay-fit";
import { overallLength, type Rig } from "@/lib/rig";
import { partyOf } from "@/lib/stays";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { readChange, type RigChange } from "../read-change";
import { changeRigFromForm } from "../actions";
import own from "../change.module.css";

export const metadata: Metadata = { title: catalogueOf().guestStay.change.checkTitle, robots: { index: false, follow: false }, referrer: "same-origin" };

const { guestStay: { change: words, hold }, things, verdicts, stays } = catalogueOf();

interface PageProps {
  readonly params: Promise<{ token: string }>;
  readonly searchParams: Promise<Params>;
}

/** What another rig or party would mean for a stay, before anything is changed. */
export default async function CheckRigPage({ params, searchParams }: PageProps) {
  const [{ token }, asked] = await Promise.all([params, searchParams]);
  const change = await readChange(token, asked);
  if (!change) notFound();
  const { form, way, allowed, data } = change;
  const edit = `${way.path}?${form.query}&units=${form.units}`;
  return (
    <main className={own.main}>
      <p className={own.back}><a href={`/stay/${token}`}>{words.back}</a></p>
      <h1>{words.checkTitle}</h1>
      {!allowed ? <p className={own.result}>{stays.fault({ code: "change", state: data.stay.state, change: "rig" })}</p>
        : form.rig ? <Checked change={change} rig={form.rig} token={token} />
          : <p className={own.result}>{words.faults}</p>}
      <p className={own.ways}><a href={edit}>{words.edit}</a></p>
    </main>
  );
}

async function Checked({ change, rig, token }: { readonly change: RigChange; readonly rig: Rig; readonly token: string }) {
  const { data: { stay, park, site, label, result: before }, form } = change;
  const [after, found] = await Promise.all([stay.site === null ? null : fitOn(park, stay.site, rig), findSites(park, stay.nights, rig, stay.wanted)]);
  const fits = after ? guestMayHave(after.verdict) : found.offered.length > 0;
  const same = JSON.stringify(rig) === JSON.stringify(stay.rig);
  return (
    <>
      <Compared change={change} before={before} after={after} rig={rig} />
      <p className={fits ? own.result : `${own.result} ${own.refused}`} role="status">{same ? words.same : label ? (fits ? words.ok(label) : words.not(label)) : fits ? words.okAny : words.notAny}</p>
      {site && after && <Asks result={after} site={site} rig={rig} units={form.units} />}
      {after && fits && <Bring result={after} rig={rig} units={form.units} />}
      {fits && !same && (
        <>
          {asksMore(stay.rig, rig) && stay.state !== "held" && <p>{words.extras}</p>}
          <SendForm action={changeRigFromForm} fields={[]} hidden={{ token, query: `${form.query}&units=${form.units}`, version: String(stay.version) }} submit={words.accept} busy={hold.busy} />
        </>
      )}
      {!fits && site && after && <ReasonList reasons={after.reasons} result={after} site={site} rig={rig} units={form.units} />}
      {!fits && <Others offered={found.offered} park={park.name} />}
    </>
  );
}

/** Whether more comes along than was told: people, vehicles or pets. */
function asksMore(before: Rig, after: Rig): boolean {
  const [was, is] = [partyOf(before), partyOf(after)];
  return is.persons > was.persons || is.vehicles > was.vehicles || is.pets > was.pets;
}

function Compared({ change: { data: { stay }, form: { units } }, before, after, rig }: { readonly change: RigChange; readonly before: FitResult | null; readonly after: FitResult | null; readonly rig: Rig }) {
  const n = numbersFor(units);
  const named = ({ kind, ...rest }: Rig) => `${things.rigKinds[kind]}, ${n.measured(overallLength({ kind, ...rest }))}`;
  const party = ({ party: { adults, children, pets } }: Rig) => hold.partyLine(adults, children, pets);
  return (
    <table className={own.table}>
      <thead><tr><td /><th scope="col">{words.before}</th><th scope="col">{words.after}</th></tr></thead>
      <tbody>
        <Row head={words.rig} cells={[unbroken(named(stay.rig)), unbroken(named(rig))]} />
        <Row head={words.party} cells={[party(stay.rig), party(rig)]} />
        {before && after && <Row head={words.verdict} cells={[before, after].map(({ verdict }, i) => <span key={i}><VerdictMark verdict={verdict} /> {verdicts[verdict].label}</span>)} />}
      </tbody>
    </table>
  );
}

function Row({ head, cells }: { readonly head: string; readonly cells: readonly ReactNode[] }) {
  return <tr><th scope="row">{head}</th>{cells.map((cell, i) => <td key={i}>{cell}</td>)}</tr>;
}

/** Where it would fit, for the desk to move them to. */
function Others({ offered, park }: { readonly offered: readonly Offered[]; readonly park: string }) {
  if (offered.length === 0) return <p>{words.noOthers} {words.call(park)}</p>;
  return (
    <>
      <h2>{words.others}</h2>
      <ul className={own.others}>{offered.slice(0, mostOthers).map(({ site, result }) => <li key={site.id}><b>{site.label ?? site.id}</b> <span><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</span></li>)}</ul>
      <p>{words.call(park)}</p>
    </>
  );
}

const mostOthers = 6;
