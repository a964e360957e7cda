import { headers } from "next/headers";
import { Plan } from "../../../components/plan/plan";
import { readParkRecord } from "../../../components/park-map/record";
import { CopyLink } from "../../../components/rig-form/copy-link";
import { VerdictMark } from "../../../components/verdict/mark";
import { linkBase } from "../../../link-base";
import { SendForm } from "../../send-form";
import { SetUp } from "../../sites/[id]/set-up";
import { loopsOf } from "../../sites/loops";
import type { Bring, FitResult } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Lendable } from "@/lib/stays";
import { bringSentence, catalogueOf, unbroken } from "@/lib/wording";
import { guestFromForm } from "../actions";
import { contactFields } from "../contact-fields";
import styles from "../stay.module.css";
import { Account } from "./account";
import { Brought } from "./brought";
import type { GuestStay } from "./read-stay";

const { guestStay: { stay: words, hold }, guestSites, verdicts } = catalogueOf();

interface PartProps {
  readonly data: GuestStay;
  readonly token: string;
}

/** A stay that is more than held: all that a guest needs before and while they are here. */
export function Kept({ data, token }: PartProps) {
  const { stay, site, result, mayEdit, mayCancel, context: { settings } } = data;
  const over = stay.state === "departed" || stay.state === "no-show";
  return (
    <>
      {!over && (
        <>
          <p className={styles.times}>{words.times(settings.checkIn, settings.checkOut)}</p>
          <KeepLink token={token} />
          <p className={styles.way}><a className={styles.button} href={`/stay/${token}/calendar.ics`} download>{words.calendar}</a> <span className={styles.small}>{words.calendarLine}</span></p>
          {site && result?.pose && <p className={styles.way}><a className={styles.button} href={`/stay/${token}/card`}>{words.card}</a> <span className={styles.small}>{words.cardLine}</span></p>}
          {site && result && <Standing data={data} site={site} result={result} />}
          <Rules data={data} />
          <Brought data={data} token={token} />
        </>
      )}
      <Account data={data} />
      {mayEdit && <Contact data={data} token={token} />}
      <h2>{words.desk}</h2>
      <p>{words.deskLine(data.park.name)}</p>
      {mayCancel && <p className={styles.way}><a className={styles.button} href={`/stay/${token}?cancel=1`}>{words.cancel}</a></p>}
    </>
  );
}

/** The one way back to this page, as the guest's browser reached it, to copy or to write down. */
async function KeepLink({ token }: Pick<PartProps, "token">) {
  const base = linkBase(await headers());
  return (
    <section className={styles.keep} aria-labelledby="keep">
      <h2 id="keep">{words.keepTitle}</h2>
      <p>{words.keep}</p>
      <CopyLink address={`${base}/stay/${token}`} {...words.copy} />
    </section>
  );
}

/** How the rig stands on its site, what setting up takes, and what is still lacking. */
function Standing({ data: { stay, park, sites, context: { settings } }, site, result }: Pick<PartProps, "data"> & { readonly site: Site; readonly result: FitResult }) {
  const { units, policy, record } = park, { rig } = stay;
  const lent = settings.lends.filter((item) => result.bring.some((bring) => isFor(item, bring)));
  return (
    <>
      <h2>{words.plan}</h2>
      <p className={styles.verdict}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</p>
      {result.verdict === "no" && <p className={styles.faults}>{words.noFit}</p>}
      <Plan site={site} rig={rig} result={result} units={units} />
      {result.pose && <SetUp entry={{ site, result }} context={{ rig, policy, units, loops: loopsOf(sites, readParkRecord(record)) }} />}
      <h2>{words.bring}</h2>
      {result.bring.length === 0 ? <p>{words.bringNothing}</p> : <ul>{[...new Set(result.bring.map((item) => bringSentence(item, rig, units)))].map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>}
      {lent.length > 0 && <p>{words.lends(lent.map(({ name }) => name))}</p>}
      <p className={styles.small}>{guestSites.unknown.decides}</p>
    </>
  );
}

const lendableFor: Readonly<Record<Bring["code"], Lendable["kind"]>> = {
  cord: "power-cord", hose: "water-hose", "sewer-hose": "sewer-hose", adapter: "adapter", regulator: "regulator", "lift-side": "blocks", "lift-along": "blocks",
};

/** Whether a thing of the desk's is of the kind that is lacking. Whether it is long enough, both together, the desk sees. */
function isFor({ kind }: Lendable, { code }: Bring): boolean {
  return lendableFor[code] === kind;
}

function Rules({ data: { context: { settings: { houseRules: { quietHours, generatorHours, campfires, more } } } } }: Pick<PartProps, "data">) {
  return (
    <>
      <h2>{words.rules}</h2>
      <ul>
        {quietHours && <li>{words.quiet(quietHours.from, quietHours.to)}</li>}
        {generatorHours && <li>{words.generators(generatorHours.from, generatorHours.to)}</li>}
        <li>{words.fires[campfires]}</li>
        {more.map((line) => <li key={line}>{line}</li>)}
      </ul>
    </>
  );
}

function Contact({ data: { stay: { guest } }, token }: PartProps) {
  const start = { name: guest?.name ?? "", email: guest?.email ?? "", phone: guest?.phone ?? "", plate: guest?.plate ?? "" };
  return (
    <>
      <h2>{words.you}</h2>
      <p>{[start.name, start.email, start.phone, start.plate].filter(Boolean).map((line) => <span key={line} className={styles.line}>{line}</span>)}</p>
      <details className={styles.fold}>
        <summary>{words.edit}</summary>
        <SendForm action={guestFromForm} fields={contactFields} hidden={{ token }} start={start} submit={words.editSubmit} busy={hold.busy} />
      </details>
    </>
  );
}
