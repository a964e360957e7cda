import type { ReactNode } from "react";
import { fitMatrix } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import type { FitResult } from "@/lib/fit";
import { isMotorized } from "@/lib/rig";
import { typicalRig } from "@/lib/rig/typical";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { queryOf, type Asked } from "./asked";
import { byEffect, effectOf, sizeOfEffect, type Effect } from "./effects";
import { factsOf, rigOf, TALLER_BY, usualAnswer, type FactId } from "./facts";
import type { Call } from "./read-call";
import styles from "./desk.module.css";

/** Nobody on the phone waits longer. Milliseconds. */
const TIME_LIMIT = 15_000;

/**
 * What else to ask: every question not yet answered, with what the other answer would change, found by solving every
 * site again with it. Rejections that come of a limit are part of what is shown.
 */
export async function makeQuestions(asked: Asked, call: Call, now: readonly FitResult[]): Promise<ReactNode> {
  const { staff: { desk: words } } = catalogueOf();
  const open = factsOf(call).filter((id) => asked.answers[id] === undefined);
  try {
    const others = open.map((id) => ({ id, answer: !usualAnswer(call, id) }));
    const rigs = others.map(({ id, answer }) => rigOf(call, { ...asked.answers, [id]: answer }));
    const { cells } = await fitMatrix(asked.sites, rigs, asked.park.policy, { timeLimit: TIME_LIMIT });
    const effects = others.map(({ id, answer }, r) => effectOf(id, answer, now, asked.sites.map((site, s) => ({ site: site.id, verdict: cells[s]![r]!.verdict }))));
    return <QuestionList asked={asked} call={call} effects={byEffect(effects)} />;
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return <p>{words.stopped}</p>;
  }
}

function QuestionList({ asked, call, effects }: { readonly asked: Asked; readonly call: Call; readonly effects: readonly Effect[] }) {
  const { staff: { desk: words } } = catalogueOf();
  const telling = effects.filter((effect) => sizeOfEffect(effect) > 0);
  const same = effects.filter((effect) => sizeOfEffect(effect) === 0);
  return (
    <>
      {telling.length === 0 ? <p>{words.nothingToAsk}</p> : (
        <ol className={styles.questions}>
          {telling.map((effect) => {
            const question = questionOf(effect.id, asked, call);
            return (
              <li key={effect.id} data-question={effect.id}>
                <p><span className={styles.question}>{question}</span> <span className={styles.effect}>{words.effect(effect)}</span></p>
                <AnswerLink asked={asked} id={effect.id} answer question={question} />
                <AnswerLink asked={asked} id={effect.id} answer={false} question={question} />
              </li>
            );
          })}
        </ol>
      )}
      {same.length > 0 && <p className={styles.same}>{words.same(same.map(({ id }) => questionOf(id, asked, call)))}</p>}
    </>
  );
}

function AnswerLink({ asked, id, answer, question }: { readonly asked: Asked; readonly id: FactId; readonly answer: boolean; readonly question: string }) {
  const { desk: words } = catalogueOf().staff;
  return <a href={`/desk/check?${queryOf(asked, { [id]: answer })}`} data-answer={answer ? "yes" : "no"} aria-label={words.answerTo(answer, question)}>{answer ? words.yes : words.no}</a>;
}

export function questionOf(id: FactId, { units }: Asked, { kind, overall }: Call): string {
  const { body } = typicalRig(kind, overall);
  return unbroken(catalogueOf().staff.desk.question(id, { motorized: isMotorized(kind), height: body.height, tallerBy: TALLER_BY }, numbersFor(units)));
}

/** What the caller answered already, each to be taken back. */
export function Answered({ asked, call }: { readonly asked: Asked; readonly call: Call }) {
  const { desk: words } = catalogueOf().staff;
  const given = factsOf(call).flatMap((id) => { const answer = asked.answers[id]; return answer === undefined ? [] : [{ id, answer }]; });
  if (given.length === 0) return null;
  return (
    <ul className={styles.answered} aria-label={words.answered}>
      {given.map(({ id, answer }) => {
        const question = questionOf(id, asked, call);
        return <li key={id}><span>{question} <strong>{answer ? words.yes : words.no}</strong></span> <a href={`/desk/check?${queryOf(asked, { [id]: undefined })}`} data-answer="back" aria-label={words.takeBackOf(question)}>{words.takeBack}</a></li>;
      })}
    </ul>
  );
}
