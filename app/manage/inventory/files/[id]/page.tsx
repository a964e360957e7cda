import type { Metadata } from "next";
import type { ReactElement, ReactNode } from "react";
import type { ImportPlan } from "@/lib/exchange";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { planUpload } from "@/lib/jobs/plan-upload";
import type { Units } from "@/lib/measure";
import { getStayContext } from "@/lib/store/park-settings";
import { readInventory } from "@/lib/store/inventory";
import { getUpload, isBeingReadIn, type Upload } from "@/lib/store/inventory-uploads";
import { getPark } from "@/lib/store/parks";
import { catalogueOf, numbersFor } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";
import { one, type Params } from "../../../../components/rig-form/params";
import { requireManager, type StaffActor } from "../../../../staff-session";
import { dropUploadAction, readInAction } from "../../actions";
import { digestOf } from "../../digest";
import { FaultTable } from "../../fault-table";
import styles from "../../inventory.module.css";
import { Soon } from "../../../soon";
import { FilesRead, RecordChanges } from "../../plan-parts";
import { LookAgain } from "../../look-again";
import { ReadInForm } from "../../read-in-form";
import { stayEffects } from "../../stay-effects";
import { stayFits } from "../../stay-fits";

const { accounts: { moment } } = catalogueOf();
const { preview, stayWords } = words;

export const metadata: Metadata = { title: preview.title, robots: { index: false } };

interface PageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Params>;
}

/** What an upload would do, before it does; once it was read in, what it did. */
export default async function UploadPage({ params, searchParams }: PageProps) {
  const { actor } = await requireManager();
  const [{ id }, asked, park] = await Promise.all([params, searchParams, getPark(actor.park)]);
  // Asked in this order: what is not being read in any more has its outcome by the time it is read.
  const going = await isBeingReadIn(actor, id), upload = await getUpload(actor, id);
  return (
    <main className={styles.main}>
      <p className={styles.back}><a href="/manage/inventory">{preview.back}</a></p>
      <h1>{going ? preview.titleGoing : upload?.outcome ? preview.titleDone : preview.title}</h1>
      <Said asked={asked} />
      {going ? <Going /> : <What asked={asked} actor={actor} upload={upload} units={park?.units ?? "ft-in"} />}
    </main>
  );
}

function Said({ asked }: { readonly asked: Params }) {
  const said = one(asked.said), sentences = { changed: preview.changedSince, stale: preview.stale, failed: preview.failed, slow: preview.slow, busy: preview.busy, "why-missing": preview.whyMissing, "change-places": preview.changePlaces, "in-use": preview.inUse((one(asked.sites) ?? "").split(", ")) };
  return said !== undefined && Object.hasOwn(sentences, said) ? <p role="alert" className={styles.warning}>{sentences[said as keyof typeof sentences]}</p> : null;
}

async function Done({ upload: { outcome, by, at } }: { readonly upload: Upload }) {
  const { actor } = await requireManager(), context = await getStayContext(actor.park);
  return (
    <div role="status" className={styles.said}>
      <p><strong>{preview.done}</strong> {words.outcome(outcome!)}</p>
      {outcome!.stays && <p><a href="/desk/nights">{stayWords.onLedger}</a>. {stayWords.fits.desk} <a href="/desk">{stayWords.onToday}</a></p>}
      <p className={styles.soft}>{preview.doneBy(by, moment(new Date(at), context?.settings.zone ?? "UTC"))}</p>
    </div>
  );
}

interface WhatProps {
  readonly asked: Params;
  readonly actor: StaffActor;
  readonly upload: Upload | null;
  readonly units: Units;
}

/** Thousands of sites take seconds to look through: the page says so at once, and what is found follows. Who has no script waits for the whole of it. */
function What({ asked, actor, upload, units }: WhatProps) {
  if (!upload) return <p role="alert" className={styles.warning}>{preview.gone}</p>;
  if (upload.outcome) return <Done upload={upload} />;
  const here = hereOf(upload), patient = one(asked.patient) !== undefined, said = one(asked.said);
  const whole = `${here}?${new URLSearchParams({ ...(said === undefined ? {} : { said }), patient: "yes" }).toString()}`;
  const soon = (work: Promise<ReactElement>, words: string) => (patient ? work : <Soon work={work} waiting={<Looking words={words} whole={whole} />} />);
  return soon(planned(actor, upload, units, soon), preview.looking);
}

function Looking({ words: sentence, whole }: { readonly words: string; readonly whole: string }) {
  return (
    <div role="status" className={styles.looking}>
      <progress aria-label={sentence} />
      <p>{sentence}</p>
      <noscript><meta httpEquiv="refresh" content={`0;url=${whole}`} /></noscript>
    </div>
  );
}

async function planned(actor: StaffActor, upload: Upload, units: Units, soon: (work: Promise<ReactElement>, words: string) => ReactNode): Promise<ReactElement> {
  const plan = await planOf(actor, upload);
  if (typeof plan === "string") return <><p role="alert" className={styles.warning}>{plan}</p><GiveUp id={upload.id} /></>;
  if (plan.faultCount > 0) return <><FaultTable plan={plan} /><FilesRead files={plan.files} /><GiveUp id={upload.id} /></>;
  const nothing = plan.sites.length + plan.rigs.length + plan.stays.length === 0 && !plan.park, n = numbersFor(units), here = hereOf(upload);
  return (
    <>
      <FilesRead files={plan.files} />
      {plan.settingsLeft && <p className={styles.warning}>{preview.settings}</p>}
      <section aria-labelledby="changes">
        <h2 id="changes">{preview.changes}</h2>
        {nothing ? <p><strong>{preview.nothing}</strong></p> : <RecordChanges plan={plan} numbers={n} />}
        <p className={styles.soft}>{preview.unchanged(plan.unchanged)}</p>
      </section>
      {plan.sites.length > 0 && (
        <section aria-labelledby="stays">
          <h2 id="stays">{preview.stays}</h2>
          {soon(stayEffects(actor, plan), preview.weighing)}
        </section>
      )}
      {plan.stays.length > 0 && (
        <section aria-labelledby="fits">
          <h2 id="fits">{stayWords.fits.title}</h2>
          {soon(stayFits(actor, plan), stayWords.fits.working)}
          <p className={styles.soft}>{stayWords.noMail}</p>
          {plan.stays.some(({ what }) => what === "changed") && <p><strong>{stayWords.noMailChanged}</strong></p>}
        </section>
      )}
      {!nothing && <ReadInForm action={readInAction.bind(null, upload.id)} href={`${here}/read-in`} here={here} seen={digestOf(plan)} stays={plan.stays.length > 0} whyNeeded={plan.stays.some((one) => one.what === "changed" && one.leavesChosen)} />}
      <GiveUp id={upload.id} />
    </>
  );
}

function Going() {
  return <div role="status" className={styles.said}><p><strong>{preview.going}</strong></p><LookAgain words={preview.goingLook} /></div>;
}

function hereOf({ id }: Upload): string {
  return `/manage/inventory/files/${encodeURIComponent(id)}`;
}

/** The plan; where it could not be made, the sentence that says why. */
async function planOf(actor: StaffActor, { files, missing }: Upload): Promise<ImportPlan | string> {
  try {
    return await planUpload(files, await readInventory(actor, files), missing);
  } catch (error) {
    if (error instanceof RankingStopped) return error.why === "busy" ? preview.busy : preview.slow;
    throw error;
  }
}

function GiveUp({ id }: { readonly id: string }) {
  return <form action={dropUploadAction.bind(null, id)}><button type="submit" className={styles.quiet}>{preview.giveUp}</button></form>;
}
