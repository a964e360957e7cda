import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { HookupsStep } from "../../components/rig-form/hookups-step";
import { KeepLink, nameOfRig } from "../../components/rig-form/keep-link";
import { OpensStep } from "../../components/rig-form/opens-step";
import { one, type Params } from "../../components/rig-form/params";
import { PartyStep } from "../../components/rig-form/party-step";
import { RememberRig } from "../../components/rig-form/remember-rig";
import { withoutNights } from "../../components/rig-form/query";
import { SizeStep } from "../../components/rig-form/size-step";
import { RigHead, StepForm } from "../../components/rig-form/step-form";
import { firstFaultyStep } from "../../components/rig-form/step-links";
import { stepOf } from "../../components/rig-form/steps";
import { catalogueOf } from "@/lib/wording";
import { askedBy } from "../context";
import type { When } from "../when";
import { WhenFields } from "../when-fields";
import whenStyles from "../when.module.css";
import styles from "./rig.module.css";

export const metadata: Metadata = { title: catalogueOf().guestRig.title };

/** The rig in four short steps. Where none is named and something is wrong, the step with the first fault is shown. */
export default async function RigPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const params = await searchParams;
  const asked = await askedBy(params);
  if (!asked?.form) redirect("/");
  const { form, units } = asked;
  const named = one(params.step), step = named === undefined ? (firstFaultyStep(form) ?? "size") : stepOf(named);
  const open = one(params.open);
  return (
    <main className={styles.main}>
      <RigHead form={form} step={step} />
      <StepForm form={form} step={step}>
        {step === "size" && <SizeStep form={form} />}
        {step === "opens" && <OpensStep form={form} open={open} />}
        {step === "hookups" && <HookupsStep form={form} open={open} />}
        {step === "party" && <><PartyStep form={form} /><Nights when={asked.when} /></>}
      </StepForm>
      {step === "party" && <KeepLink form={form} />}
      {form.rig && <RememberRig name={nameOfRig(form)} query={`${withoutNights(form.query)}&units=${units}`} />}
    </main>
  );
}

/** When they come, where they know it already. */
function Nights({ when }: { readonly when: When }) {
  const { when: words } = catalogueOf().guestStay;
  return (
    <section aria-labelledby="when" className={whenStyles.when}>
      <h2 id="when" className={whenStyles.title}>{words.title}</h2>
      <p className={whenStyles.invite}>{words.invite} {words.lead}</p>
      <WhenFields when={when} />
    </section>
  );
}
