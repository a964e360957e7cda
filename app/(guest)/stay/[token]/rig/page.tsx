import type { Metadata } from "next";
import { notFound, redirect } from "next/navigation";
import { HookupsStep } from "../../../../components/rig-form/hookups-step";
import { OpensStep } from "../../../../components/rig-form/opens-step";
import { one, type Params } from "../../../../components/rig-form/params";
import { PartyStep } from "../../../../components/rig-form/party-step";
import { SizeStep } from "../../../../components/rig-form/size-step";
import { RigHead, StepForm } from "../../../../components/rig-form/step-form";
import { firstFaultyStep } from "../../../../components/rig-form/step-links";
import { stepOf, type Step } from "../../../../components/rig-form/steps";
import { typicalKinds } from "@/lib/rig/typical";
import { catalogueOf } from "@/lib/wording";
import styles from "../../stay.module.css";
import { firstAddress, readChange, type RigChange } from "./read-change";
import own from "./change.module.css";

export const metadata: Metadata = { title: catalogueOf().guestStay.change.title, robots: { index: false, follow: false }, referrer: "same-origin" };

interface PageProps {
  readonly params: Promise<{ token: string }>;
  readonly searchParams: Promise<Params>;
}

/** The rig of a stay in the form a guest knows, filled in with what they told before. */
export default async function ChangeRigPage({ params, searchParams }: PageProps) {
  const [{ token }, asked] = await Promise.all([params, searchParams]);
  const change = await readChange(token, asked);
  if (!change) notFound();
  const begin = Object.keys(asked).length === 0 ? firstAddress(change) : null;
  if (begin) redirect(begin);
  const { form, data } = change, { guestStay: { change: words }, stays: { fault } } = catalogueOf();
  const step = one(asked.step) === undefined ? (firstFaultyStep(form) ?? "size") : stepOf(one(asked.step));
  return (
    <main className={own.main}>
      <p className={own.back}><a href={`/stay/${token}`}>{words.back}</a></p>
      {change.allowed ? (
        <>
          <RigHead form={form} step={step} />
          <StepForm form={form} step={step}><Fields change={change} step={step} open={one(asked.open)} /></StepForm>
          <Kinds change={change} />
        </>
      ) : <p className={styles.said}>{fault({ code: "change", state: data.stay.state, change: "rig" })}</p>}
    </main>
  );
}

function Fields({ change: { form }, step, open }: { readonly change: RigChange; readonly step: Step; readonly open: string | undefined }) {
  switch (step) {
    case "size": return <SizeStep form={form} />;
    case "opens": return <OpensStep form={form} open={open} />;
    case "hookups": return <HookupsStep form={form} open={open} />;
    case "party": return <PartyStep form={form} />;
  }
}

/** Another kind of rig altogether, with the same people. */
function Kinds({ change: { data: { stay: { rig: { party } } }, way, form } }: { readonly change: RigChange }) {
  const { guestRig, things } = catalogueOf();
  const people = new URLSearchParams([["units", form.units], ...(["adults", "children", "pets", "tents"] as const).map((name): [string, string] => [name, String(party[name])])]);
  return (
    <details className={own.kinds}>
      <summary>{guestRig.otherKind}</summary>
      <ul>{typicalKinds.map((kind) => <li key={kind}><a href={`${way.path}?kind=${kind}&${people.toString()}`}>{things.rigKinds[kind]}</a></li>)}</ul>
    </details>
  );
}
