import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { copyable } from "@/lib/park/edit/copy";
import { getSiteAt, listSitesAt } from "@/lib/store/site-changes";
import { siteEditor } from "@/lib/wording/en/site-editor";
import type { Params } from "../../../../../components/rig-form/params";
import { requireManager } from "../../../../../staff-session";
import { giveTo, readChosen, type Chosen } from "./chosen";
import { Preview } from "./preview";
import fields from "../../../../editing/fields.module.css";
import styles from "../../../../editing/editor.module.css";

const { loop: words, back } = siteEditor;

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

export async function generateMetadata({ params }: PageProps): Promise<Metadata> {
  const [{ actor }, { id }] = await Promise.all([requireManager(), params]);
  return { title: words.title((await getSiteAt(actor, id))?.record.label ?? id) };
}

/** What one site has, given to others of its loop or of the park. The address holds the choice; it works without script. */
export default async function GiveToLoopPage({ params, searchParams }: PageProps) {
  const [{ actor }, { id }, asked] = await Promise.all([requireManager(), params, searchParams]);
  const sites = await listSitesAt(actor), source = sites.get(id);
  if (!source) notFound();
  const others = [...sites].filter(([siteId, { retired }]) => siteId !== id && !retired).map(([siteId, { record }]) => ({ id: siteId, label: record.label ?? siteId, loop: record.loop ?? null }));
  const chosen = readChosen(asked, new Set(others.map((site) => site.id)));
  const loop = source.record.loop ?? null, mine = others.filter((site) => loop !== null && site.loop === loop), rest = others.filter((site) => !mine.includes(site));
  const label = source.record.label ?? id, saved = Number(asked.saved ?? 0);
  const fault = chosen.looked ? { parts: chosen.parts.length === 0, to: chosen.to.length === 0 } : { parts: false, to: false };
  const said = asked.stale !== undefined ? words.stale : asked.refused !== undefined ? words.refused : null;
  return (
    <main className={`${styles.main} ${styles.beside}`}>
      <nav className={styles.ways}><a href={`/manage/sites/${encodeURIComponent(id)}`}>{back(label)}</a></nav>
      <h1>{words.title(label)}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {saved > 0 && <p role="status" className={styles.note}>{words.saved(saved)}</p>}
      <form method="get" className={styles.plainForm}>
        <fieldset className={fault.parts ? fields.faulty : fields.field} aria-describedby={fault.parts ? "part-fault" : "part-hint"}>
          <legend>{words.what}</legend>
          <p id="part-hint" className={styles.hint}>{words.replaces}</p>
          <div className={styles.choices}>{copyable.map((part) => <label key={part} className={fields.tick}><input type="checkbox" name="part" value={part} defaultChecked={chosen.parts.includes(part)} aria-invalid={fault.parts || undefined} /> {words.parts[part]}</label>)}</div>
          {fault.parts && <p id="part-fault" className={fields.fault}>{words.nothingChosen}</p>}
        </fieldset>
        {mine.length > 0 ? <SiteTicks title={words.thisLoop(loop!)} sites={mine} chosen={chosen} fault={fault.to} /> : <p>{words.noLoop}</p>}
        {rest.length > 0 && <details open={mine.length === 0 || rest.some((site) => chosen.to.includes(site.id))}><summary className={styles.summary}>{words.otherSites}</summary><SiteTicks title={words.otherSites} sites={rest} chosen={chosen} fault={fault.to && mine.length === 0} /></details>}
        <button type="submit" name="look" value="yes" className={styles.look}>{words.look}</button>
      </form>
      {chosen.looked && !fault.parts && !fault.to && <Preview actor={actor} from={{ id, label, version: source.version }} chosen={chosen} given={giveTo(source.record, sites, chosen)} said={said} />}
    </main>
  );
}

function SiteTicks({ title, sites, chosen, fault }: { readonly title: string; readonly sites: readonly { readonly id: string; readonly label: string }[]; readonly chosen: Chosen; readonly fault: boolean }) {
  return (
    <fieldset className={fault ? fields.faulty : fields.field} aria-describedby={fault ? "to-fault" : undefined}>
      <legend>{title}</legend>
      <div className={styles.siteChoices}>{sites.map(({ id, label }) => <label key={id} className={fields.tick}><input type="checkbox" name="to" value={id} defaultChecked={chosen.to.includes(id)} aria-invalid={fault || undefined} /> {label}</label>)}</div>
      {fault && <p id="to-fault" className={fields.fault}>{words.noSites}</p>}
    </fieldset>
  );
}
