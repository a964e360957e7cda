import type { Units } from "@/lib/measure";
import type { Catalogue } from "@/lib/wording";
import { Plan } from "../components/plan/plan";
import { layoutPlan } from "../components/plan/sheet";
import { callOutsOn, DISC, type CallOut } from "./call-outs";
import type { Sample } from "./sample";
import { Text } from "./text";
import styles from "./learn.module.css";

/** A real plan with numbers on it, and what each number points at. */
export function ExplainedPlan({ sample: { park, name, site, rig, result }, units, words }: { readonly sample: Sample; readonly units: Units; readonly words: PlanWords }) {
  const callOuts = callOutsOn(layoutPlan(site, { rig, result }, units));
  return (
    <>
      {words.lines(site.label ?? site.id, park, name).map((line) => <p key={line}><Text units={units}>{line}</Text></p>)}
      <div className={styles.explained}>
        <Plan site={site} rig={rig} result={result} units={units} overlay={() => <CallOuts callOuts={callOuts} />} />
        <ol className={styles.callOuts}>
          {callOuts.map(({ id, number }) => <li key={id}><b aria-hidden="true">{number}</b><span><Text units={units}>{words.callOuts[id]}</Text></span></li>)}
        </ol>
      </div>
      <p><Text units={units}>{words.after}</Text></p>
    </>
  );
}

type PlanWords = ReturnType<Catalogue["learn"]["guest"]>["plan"];

function CallOuts({ callOuts }: { readonly callOuts: readonly CallOut[] }) {
  return callOuts.map(({ id, number, at: [x, y], leader }) => (
    <g key={id} data-call-out={id}>
      {leader && <line className={styles.callOutLine} x1={round(leader[0][0])} y1={round(leader[0][1])} x2={round(leader[1][0])} y2={round(leader[1][1])} />}
      <circle className={styles.callOutDisc} cx={round(x)} cy={round(y)} r={DISC} />
      <text className={styles.callOutNumber} x={round(x)} y={round(y)} textAnchor="middle" dominantBaseline="central">{number}</text>
    </g>
  ));
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
