import type { Metadata } from "next";
import type { Policy } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import type { Params } from "../components/rig-form/params";
import { VerdictMark } from "../components/verdict/mark";
import { learnContext } from "./context";
import { CheckDrawing } from "./drawings/checked";
import { TapeDrawing } from "./drawings/tape";
import { ExplainedPlan } from "./explained-plan";
import { Frame, OnPage } from "./frame";
import { sample } from "./sample";
import { Text } from "./text";
import styles from "./learn.module.css";

const { learn, verdicts } = catalogueOf();

export const metadata: Metadata = { title: learn.nav.guest };

type Words = ReturnType<typeof learn.guest>;
interface SectionProps {
  readonly words: Words;
  readonly units: Units;
}

/** What is checked, how to read a plan, what an answer means, where to hold the tape, and what to mind: for a guest before a first trip. */
export default async function LearnPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { units, policy } = await learnContext(searchParams);
  const words = learn.guest({ n: numbersFor(units), policy });
  const sections = [
    { id: "checks", title: words.checksTitle }, { id: "plan", title: words.planTitle }, { id: "answers", title: words.answersTitle },
    { id: "tape", title: words.tapeTitle }, { id: "care", title: words.cautionsTitle },
  ];
  return (
    <Frame page="guest" units={units} title={words.title} lead={words.lead.map((line) => <p key={line}>{line}</p>)}>
      <OnPage to={sections} />
      <Checks words={words} units={units} policy={policy} />
      <section aria-labelledby="plan" className={styles.part}>
        <h2 id="plan">{words.planTitle}</h2>
        <ExplainedPlan sample={await sample()} units={units} words={words.plan} />
      </section>
      <Answers words={words} units={units} />
      <Tape words={words} units={units} />
      <Cautions words={words} units={units} />
    </Frame>
  );
}

function Checks({ words, units, policy }: SectionProps & { readonly policy: Policy }) {
  return (
    <section aria-labelledby="checks" className={styles.part}>
      <h2 id="checks">{words.checksTitle}</h2>
      <div className={styles.cards}>
        {words.checks.map(({ id, title, lines }) => (
          <div key={id} className={styles.card}>
            <h3 id={id}>{title}</h3>
            <CheckDrawing id={id} units={units} policy={policy} />
            <Lines lines={lines} units={units} />
          </div>
        ))}
      </div>
    </section>
  );
}

function Answers({ words, units }: SectionProps) {
  return (
    <section aria-labelledby="answers" className={styles.part}>
      <h2 id="answers">{words.answersTitle}</h2>
      <p>{words.answersLead}</p>
      <div className={styles.cards}>
        {(["fits", "gear", "ask", "no", "unsettled"] as const).map((verdict) => (
          <div key={verdict} className={styles.card}>
            <h3 id={`answer-${verdict}`} className={styles.verdict}><VerdictMark verdict={verdict} /> {verdicts[verdict].label}</h3>
            <p>{words.answers[verdict].means}</p>
            <p>{words.answers[verdict].not}</p>
            {verdict === "fits" && <p>{unbroken(words.tight)}</p>}
          </div>
        ))}
      </div>
      <h3 id="untold">{words.untoldTitle}</h3>
      <ul className={styles.list}>{words.untold.map((line) => <li key={line}><Text units={units}>{line}</Text></li>)}</ul>
    </section>
  );
}

function Tape({ words, units }: SectionProps) {
  return (
    <section aria-labelledby="tape" className={styles.part}>
      <h2 id="tape">{words.tapeTitle}</h2>
      <Lines lines={words.tapeLead} units={units} />
      <div className={styles.cards}>
        {words.tape.map(({ id, title, lines }) => (
          <div key={id} className={styles.card}>
            <h3 id={id}>{title}</h3>
            <TapeDrawing id={id} />
            <Lines lines={lines} units={units} />
          </div>
        ))}
      </div>
    </section>
  );
}

function Cautions({ words, units }: SectionProps) {
  return (
    <section aria-labelledby="care" className={styles.part}>
      <h2 id="care">{words.cautionsTitle}</h2>
      <div className={styles.cards}>
        {words.cautions.map(({ id, title, lines }) => (
          <div key={id} className={styles.care}>
            <h3 id={id}>{title}</h3>
            <ul>{lines.map((line) => <li key={line}><Text units={units}>{line}</Text></li>)}</ul>
          </div>
        ))}
      </div>
      <p className={styles.who}>{words.who}</p>
    </section>
  );
}

function Lines({ lines, units }: { readonly lines: readonly string[]; readonly units: Units }) {
  return lines.map((line) => <p key={line}><Text units={units}>{line}</Text></p>);
}
