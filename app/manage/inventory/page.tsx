import type { Metadata } from "next";
import { readOrigin } from "@/lib/exchange/origin";
import { tableNames } from "@/lib/exchange/tables";
import { getStayContext } from "@/lib/store/park-settings";
import { listImports } from "@/lib/store/inventory-uploads";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";
import { Busy } from "../../components/rig-form/busy";
import { one, type Params } from "../../components/rig-form/params";
import { requireManager } from "../../staff-session";
import { saveOriginAction } from "./actions";
import styles from "./inventory.module.css";
import { originFields, readOriginForm } from "./read-origin-form";
import { most, refusal } from "./said";

const { accounts: { moment } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** So many past imports are listed. */
const mostListed = 10;

/** The inventory as files to take out, and files to be read in. */
export default async function InventoryPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireManager();
  const [asked, park, context, imports] = await Promise.all([searchParams, getPark(actor.park), getStayContext(actor.park), listImports(actor, mostListed)]);
  const origin = readOrigin(park?.record), zone = context?.settings.zone ?? "UTC";
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      <div className={styles.halves}>
        <TakeOut map={origin !== null} />
        <ReadIn fault={refusal(one(asked.said))} />
      </div>
      <Where asked={asked} origin={origin} />
      <section aria-labelledby="past">
        <h2 id="past">{words.history.title}</h2>
        {imports.length === 0 ? <p>{words.history.none}</p> : (
          <ul className={styles.past}>{imports.map(({ id, at, by, outcome }) => <li key={id}><p>{words.outcome(outcome)}</p><p className={styles.soft}>{words.preview.doneBy(by, moment(new Date(at), zone))}</p></li>)}</ul>
        )}
      </section>
    </main>
  );
}

function TakeOut({ map }: { readonly map: boolean }) {
  const { out } = words;
  return (
    <section aria-labelledby="out">
      <h2 id="out">{out.title}</h2>
      <p>{out.lead}</p>
      <Files of={out.json} names={["sites.json", "rigs.json", "park.json"]} />
      <Files of={out.csv} names={tableNames.map((name) => `${name}.csv`)} />
      {map ? <Files of={out.map} names={["sites.geojson"]} /> : <div className={styles.form}><h3>{out.map.name}</h3><p>{out.map.about}</p><p><a href="#where">{out.mapMissing}</a></p></div>}
      <Files of={out.stays} names={["stays.csv"]} />
    </section>
  );
}

function Files({ of: { name, about }, names }: { readonly of: { readonly name: string; readonly about: string }; readonly names: readonly string[] }) {
  return (
    <div className={styles.form}>
      <h3>{name}</h3>
      <p>{about}</p>
      <ul className={styles.files}>{names.map((file) => <li key={file}><a href={`/manage/inventory/file/${file}`} download>{file}</a><span>{words.out.files[file]}</span></li>)}</ul>
    </div>
  );
}

function ReadIn({ fault }: { readonly fault: string | null }) {
  const { in: said } = words;
  return (
    <section aria-labelledby="in" className={styles.sheet}>
      <h2 id="in">{said.title}</h2>
      <p id="in-lead">{said.lead(most)}</p>
      <form action="/manage/inventory/upload" method="post" encType="multipart/form-data">
        <div className={fault ? styles.faulty : styles.field}>
          <label htmlFor="files">{said.files}</label>
          <input id="files" type="file" name="files" multiple required accept=".csv,.json,.geojson,.txt,text/csv,application/json,application/geo+json" aria-describedby={fault ? "files-fault in-lead" : "in-lead"} aria-invalid={fault ? true : undefined} />
          {fault && <p id="files-fault" className={styles.fault} role="alert">{fault}</p>}
        </div>
        <fieldset className={styles.ticks}>
          <legend>{said.missing}</legend>
          <label><input type="radio" name="missing" value="keep" defaultChecked />{said.keep}</label>
          <label><input type="radio" name="missing" value="remove" aria-describedby="remove-about" />{said.remove}</label>
          <p id="remove-about" className={styles.soft}>{said.removeAbout}</p>
        </fieldset>
        <Busy className={styles.strong} label={said.go} busy={said.sending} />
      </form>
      <details className={styles.how}>
        <summary>{words.stayWords.how.title}</summary>
        <p>{words.stayWords.how.lead}</p>
        <pre tabIndex={0} aria-label={words.stayWords.how.exampleOf}>{words.stayWords.how.example}</pre>
        <ul>{words.stayWords.how.points.map((point) => <li key={point}>{point}</li>)}</ul>
      </details>
    </section>
  );
}

function Where({ asked, origin }: { readonly asked: Params; readonly origin: ReturnType<typeof readOrigin> }) {
  const { origin: said } = words, typed = one(asked.where) === "typed" ? readOriginForm(asked) : null;
  const held = { latitude: origin?.latitude, longitude: origin?.longitude, bearing: origin?.bearing };
  return (
    <section aria-labelledby="where">
      <h2 id="where">{said.title}</h2>
      <p>{said.about}</p>
      <p><strong>{origin ? said.set(origin.latitude, origin.longitude, origin.bearing) : said.unset}</strong></p>
      {one(asked.where) === "saved" && <p role="status" className={styles.said}>{said.saved}</p>}
      <form action={saveOriginAction} className={styles.where}>
        {originFields.map((field) => {
          const wrong = typed?.faults.includes(field) ?? false;
          return (
            <div key={field} className={wrong ? styles.faulty : styles.field}>
              <label htmlFor={field}>{said[field]}</label>
              <input id={field} name={field} inputMode="text" autoComplete="off" maxLength={40} defaultValue={typed ? typed.texts[field] : (held[field] ?? "")} aria-invalid={wrong || undefined} aria-describedby={wrong ? `${field}-fault` : undefined} />
              {wrong && <p id={`${field}-fault`} className={styles.fault}>{said.faults[field]}</p>}
            </div>
          );
        })}
        <button type="submit" className={styles.quiet}>{said.save}</button>
      </form>
      <p className={styles.soft}>{said.accuracy}</p>
    </section>
  );
}
