import type { Metadata } from "next";
import type { ImportPlan } from "@/lib/exchange";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { planUpload } from "@/lib/jobs/plan-upload";
import { getStayContext } from "@/lib/store/park-settings";
import { readInventory } from "@/lib/store/inventory";
import { getUpload, type Upload } from "@/lib/store/inventory-uploads";
import { getPark } from "@/lib/store/parks";
import { catalogueOf, numbersFor } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";
import { one, type Params } from "../../../../components/rig-form/params";
import { requireManager, type StaffActor } from "../../../../staff-session";
import { dropUploadAction, readInAction } from "../../actions";
import { digestOf } from "../../digest";
import { FaultTable } from "../../fault-table";
import styles from "../../inventory.module.css";
import { FilesRead, RecordChanges } from "../../plan-parts";
import { ReadInButton } from "../../read-in-button";
import { StayEffects } from "../../stay-effects";

const { accounts: { moment } } = catalogueOf();
const { preview } = words;

export const metadata: Metadata = { title: preview.title, robots: { index: false } };

interface PageProps {
  readonly params: Promise<{ readonly id: string }>;
  readonly searchParams: Promise<Params>;
}

/** What an upload would do, before it does; once it was read in, what it did. */
export default async function UploadPage({ params, searchParams }: PageProps) {
  const { actor } = await requireManager();
  const [{ id }, asked, park] = await Promise.all([params, searchParams, getPark(actor.park)]);
  const upload = await getUpload(actor, id);
  return (
    <main className={styles.main}>
      <p className={styles.back}><a href="/manage/inventory">{preview.back}</a></p>
      <h1>{preview.title}</h1>
      <Said asked={asked} />
      {!upload ? <p role="alert" className={styles.warning}>{preview.gone}</p> : upload.outcome ? <Done upload={upload} /> : <Planned actor={actor} upload={upload} units={park?.units ?? "ft-in"} />}
    </main>
  );
}

function Said({ asked }: { readonly asked: Params }) {
  const said = one(asked.said), sentences = { changed: preview.changedSince, stale: preview.stale, failed: preview.failed, slow: preview.slow, busy: preview.busy, "in-use": preview.inUse((one(asked.sites) ?? "").split(", ")) };
  return said !== undefined && Object.hasOwn(sentences, said) ? <p role="alert" className={styles.warning}>{sentences[said as keyof typeof sentences]}</p> : null;
}

async function Done({ upload: { outcome, by, at } }: { readonly upload: Upload }) {
  const { actor } = await requireManager(), context = await getStayContext(actor.park);
  return (
    <div role="status" className={styles.said}>
      <p><strong>{preview.done}</strong> {words.outcome(outcome!)}</p>
      <p className={styles.soft}>{preview.doneBy(by, moment(new Date(at), context?.settings.zone ?? "UTC"))}</p>
    </div>
  );
}

async function Planned({ actor, upload, units }: { readonly actor: StaffActor; readonly upload: Upload; readonly units: "ft-in" | "metric" }) {
  const plan = await planOf(actor, upload);
  if (typeof plan === "string") return <><p role="alert" className={styles.warning}>{plan}</p><GiveUp id={upload.id} /></>;
  if (plan.faultCount > 0) return <><FaultTable plan={plan} /><FilesRead files={plan.files} /><GiveUp id={upload.id} /></>;
  const nothing = plan.sites.length + plan.rigs.length === 0 && !plan.park, n = numbersFor(units);
  return (
    <>
      <FilesRead files={plan.files} />
      {plan.settingsLeft && <p className={styles.warning}>{preview.settings}</p>}
      <section aria-labelledby="changes">
        <h2 id="changes">{preview.changes}</h2>
        {nothing ? <p><strong>{preview.nothing}</strong></p> : <RecordChanges plan={plan} numbers={n} />}
        <p className={styles.soft}>{preview.unchanged(plan.unchanged.sites, plan.unchanged.rigs)}</p>
      </section>
      {plan.sites.length > 0 && <StayEffects actor={actor} plan={plan} />}
      {!nothing && (
        <form action={readInAction.bind(null, upload.id, digestOf(plan))} className={styles.readIn}>
          <div className={styles.field}><label htmlFor="why">{preview.why}</label><p id="why-help" className={styles.soft}>{preview.whyHelp}</p><input id="why" name="why" maxLength={300} autoComplete="off" aria-describedby="why-help" /></div>
          <ReadInButton label={preview.go} working={preview.working} />
        </form>
      )}
      <GiveUp id={upload.id} />
    </>
  );
}

/** The plan; where it could not be made, the sentence that says why. */
async function planOf(actor: StaffActor, { files, missing }: Upload): Promise<ImportPlan | string> {
  try {
    return await planUpload(files, await readInventory(actor), missing);
  } catch (error) {
    if (error instanceof RankingStopped) return error.why === "busy" ? preview.busy : preview.slow;
    throw error;
  }
}

function GiveUp({ id }: { readonly id: string }) {
  return <form action={dropUploadAction.bind(null, id)}><button type="submit" className={styles.quiet}>{preview.giveUp}</button></form>;
}
