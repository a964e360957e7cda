import type { Metadata } from "next";
import { Cautions } from "../../components/cautions/cautions";
import type { Params } from "../../components/rig-form/params";
import { UnitsLinks } from "../../components/staff-nav/units-links";
import { Soon } from "../../manage/soon";
import type { FitResult } from "@/lib/fit";
import { RankingStopped, rankInPool } from "@/lib/jobs/fit-pool";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { askedOf, queryOf, type Asked } from "./asked";
import { CallForm } from "./call-form";
import { rigOf } from "./facts";
import { Answered, makeQuestions } from "./questions";
import { QuickKeys } from "./quick-keys";
import { Ranked } from "./ranked";
import type { Call } from "./read-call";
import styles from "./desk.module.css";

const { pages, staff: { desk: words, table } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** A caller's kind and length in, which sites would do and what else to ask out. */
export default async function DeskPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const asked = await askedOf(await searchParams);
  if (!asked) return <main className={styles.main}><h1>{words.heading}</h1><p className={styles.notice}>{table.noPark}</p></main>;
  const { units } = asked;
  return (
    <main className={styles.main}>
      <div className={styles.head}>
        <h1>{words.heading}</h1>
        <p className={styles.lead}>{words.lead}</p>
      </div>
      <QuickKeys slow={words.slow} className={styles.board} slowClassName={styles.slow}>
        <CallForm asked={asked} />
        <Answer asked={asked} />
      </QuickKeys>
      <div className={styles.foot}>
        <p className={styles.keys}>{words.keys}</p>
        <UnitsLinks units={units} names={pages.units} hrefOf={(system) => `/desk/check?${queryOf({ ...asked, units: system })}`} />
      </div>
      {asked.read?.ok && <Cautions />}
    </main>
  );
}

/** Nobody on the phone waits longer. Milliseconds. */
const TIME_LIMIT = 15_000;

/** The region is there from the start, so that what comes into it is announced. */
async function Answer({ asked }: { readonly asked: Asked }) {
  const { read, sites, park } = asked;
  if (!read?.ok) return <p role="status" className={styles.answer} />;
  if (sites.length === 0) return <p role="status" className={styles.answer}>{table.noSites}</p>;
  const rig = rigOf(read.call, asked.answers);
  const results = await rankInPool(sites, rig, park.policy, { timeLimit: TIME_LIMIT, access: true }).catch((error: unknown) => {
    if (error instanceof RankingStopped) return null;
    throw error;
  });
  if (!results) return <p role="status" className={styles.answer}>{words.stopped}</p>;
  return (
    <>
      <Sentence asked={asked} call={read.call} results={results} />
      <section aria-labelledby="ask" className={styles.part}>
        <h2 id="ask">{words.ask}</h2>
        <p className={styles.note}>{words.askLead} {words.taken}</p>
        <Answered asked={asked} call={read.call} />
        <Soon work={makeQuestions(asked, read.call, results)} waiting={<p role="status">{words.asking}</p>} />
      </section>
      <Ranked asked={asked} rig={rig} results={results} />
    </>
  );
}

function Sentence({ asked: { loop, units }, call, results }: { readonly asked: Asked; readonly call: Call; readonly results: readonly FitResult[] }) {
  const count = (verdict: FitResult["verdict"]) => results.filter((result) => result.verdict === verdict).length;
  return (
    <p role="status" className={styles.answer}>
      <span className={styles.rig}>{unbroken(words.rig(call.kind, numbersFor(units).measured(call.overall)))}.{loop !== null && ` ${words.inLoop(loop)}`}</span>{" "}
      {words.answer(count("fits"), count("gear"), count("no"), count("ask") + count("unsettled"))}
    </p>
  );
}
