import type { ReactNode } from "react";
import { longestRigs } from "@/lib/jobs/longest-rigs";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { lengthSteps, type LongestFit } from "@/lib/insight";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { lengthClassesOf, typicalKinds, typicalRig, usualLengthOf, type RigKind } from "@/lib/rig/typical";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { Soon } from "../soon";
import { fitsContext } from "./context";
import styles from "./fits.module.css";

const { insight: { longest: words, working, stopped }, things } = catalogueOf();

interface LongestRigsProps {
  readonly site: Site;
  readonly units: Units;
}

/** The longest rig of every kind that the ground of a site takes, with slides and without, and words to post. */
export function LongestRigs(props: LongestRigsProps) {
  return (
    <section className={styles.section} aria-labelledby="longest">
      <h2 id="longest">{words.title}</h2>
      <Soon work={tell(props)} waiting={<p className={styles.waiting} role="status">{working.section}</p>} />
    </section>
  );
}

/** What was found for a kind; `withSlides` is null where the kind has none. */
interface Found {
  readonly kind: RigKind;
  readonly withSlides: LongestFit | null;
  readonly without: LongestFit;
}

async function tell({ site, units }: LongestRigsProps): Promise<ReactNode> {
  const context = await fitsContext();
  if (!context) return null;
  try {
    const all = await longestRigs(site, context.park.policy, lengthSteps[units]);
    const found = typicalKinds.map((kind): Found => {
      const of = (variant: LongestFit["variant"]) => all.find((it) => it.kind === kind && it.variant === variant) ?? null;
      return { kind, withSlides: of("slides"), without: of("no-slides")! };
    });
    return (
      <>
        <Lead site={site} units={units} found={found} />
        <div className={styles.halves}><Lengths found={found} units={units} /><ToPost found={found} units={units} /></div>
      </>
    );
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return <p>{stopped.title} {stopped.why[error.why]}</p>;
  }
}

function Lead({ site, units, found }: LongestRigsProps & { readonly found: readonly Found[] }) {
  const limit = site.rules?.maxLength;
  const lacking = (["power", "water"] as const).filter((service) => !site.hookups.some(({ kind }) => kind === service) && typicalKinds.some((kind) => typicalRig(kind, usualLengthOf(kind)).wants.includes(service)));
  // Some usual length of the kind is within the limit and finds no place even so.
  const generous = limit === undefined ? [] : found.filter(({ kind, without }) => lengthClassesOf(kind).some((length) => length <= limit && length > (without.longest ?? 0)));
  return (
    <>
      <p>{words.lead}</p>
      <p>
        {limit === undefined ? words.notPosted : words.posted(unbroken(numbersFor(units).measured(limit)))}
        {generous.length > 0 && <> {words.tooGenerous(generous.map(({ kind }) => words.kinds[kind]))}</>}
        {lacking.length > 0 && <> {words.without(lacking.map((service) => things.services[service]))}</>}
      </p>
    </>
  );
}

function Lengths({ found, units }: { readonly found: readonly Found[]; readonly units: Units }) {
  const say = ({ longest, beyondAll }: LongestFit) => {
    if (longest === null) return words.none;
    const length = numbersFor(units).spare(longest + ROUNDING);
    return unbroken(beyondAll ? words.more(length) : length);
  };
  return (
    <table className={styles.counts}>
      <thead><tr><th scope="col">{words.columns.kind}</th><th scope="col">{words.columns.slides}</th><th scope="col">{words.columns.noSlides}</th></tr></thead>
      <tbody>
        {found.map(({ kind, withSlides, without }) => (
          <tr key={kind}><th scope="row">{words.kinds[kind]}</th><td>{withSlides ? say(withSlides) : words.same}</td><td>{say(without)}</td></tr>
        ))}
      </tbody>
    </table>
  );
}

function ToPost({ found, units }: { readonly found: readonly Found[]; readonly units: Units }) {
  const say = ({ posted }: LongestFit) => (posted === null ? null : words.wholeLength(posted, units === "metric"));
  const lineOf = ({ kind, withSlides, without }: Found) => {
    const name = words.kinds[kind], longestUsual = lengthClassesOf(kind).at(-1)!;
    if ([withSlides ?? without, without].every(({ longest }) => longest !== null && longest >= longestUsual)) return words.any(name);
    return words.line(name, withSlides && say(withSlides), say(without), withSlides !== null);
  };
  return (
    <div>
      <h3>{words.post}</h3>
      <p className={styles.help}>{words.postHelp}</p>
      <div className={styles.post}>
        <ul>{found.map((it) => <li key={it.kind}>{unbroken(lineOf(it))}</li>)}</ul>
      </div>
    </div>
  );
}

/** Sums of inches come out a hair below themselves, mm. */
const ROUNDING = 0.01;
