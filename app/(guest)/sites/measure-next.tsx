import { TapeSpot } from "../../components/rig-form/drawings/tape-spot";
import { Busy } from "../../components/rig-form/busy";
import { one, type Params } from "../../components/rig-form/params";
import type { RigForm } from "../../components/rig-form/read";
import type { Question } from "@/lib/insight";
import type { Rig } from "@/lib/rig";
import { catalogueOf, questionInWords, unbroken } from "@/lib/wording";
import { addressOf, pairsOf, type Standpoint } from "./address";
import styles from "./measure-next.module.css";

interface MeasureNextProps {
  readonly form: RigForm;
  readonly rig: Rig;
  /** The one that decides most first. */
  readonly questions: readonly Question[];
  readonly standpoint: Standpoint;
  /** Unfolded from the start: one has been answered or passed over, and the next one comes. */
  readonly unfolded: boolean;
}

/** In the address of whoever is being asked one after the other. */
const ASKING = ["ask", "1"] as const;

/** One number to measure: the one that most answers hang on, where to hold the tape, and what it may change. */
export function MeasureNext({ form, rig, questions, standpoint, unfolded }: MeasureNextProps) {
  const { questions: words } = catalogueOf();
  const inputOf = (question: Question) => form.assumed.find(({ field }) => field === question.unknown.field)?.input ?? "";
  const open = questions.filter((question) => !standpoint.skipped.includes(inputOf(question)));
  const [first] = open;
  if (form.assumed.length === 0) return null;
  if (!first) return <p className={styles.none}>{questions.length === 0 ? words.none : words.allSkipped} {standpoint.skipped.length > 0 && <a href={addressOf("/sites", { ...standpoint, skipped: [] })}>{words.askAgain}</a>}</p>;
  const input = inputOf(first), told = questionInWords(first, rig, form.units);
  return (
    <details className={styles.next} open={unfolded}>
      <summary>
        <h2>{words.title}</h2>
        <span className={styles.lead}>{words.lead(first.decides, first.brings)}</span>
      </summary>
      <div className={styles.body}>
        <div className={styles.drawing}><Spot form={form} rig={rig} input={input} label={told.measure} /></div>
        <div>
          <p className={styles.what}>{unbroken(told.measure)}</p>
          <ul className={styles.effects}>{told.effects.map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>
          <form method="get" action="/sites" className={styles.form}>
            {pairsOf(standpoint).map(([name, value]) => <input key={`${name} ${value}`} type="hidden" name={name} value={value} />)}
            <input type="hidden" name={ASKING[0]} value={ASKING[1]} />
            <label htmlFor="measured">{words.yours}</label>
            <div className={styles.row}>
              <input id="measured" name={input} autoComplete="off" maxLength={40} required aria-describedby="measured-taken" />
              <Busy className={styles.submit} label={words.submit} busy={catalogueOf().guestSites.filters.busy} />
            </div>
            <p id="measured-taken" className={styles.taken}>{unbroken(told.taken)}</p>
          </form>
          <p className={styles.skip}><a href={`${addressOf("/sites", { ...standpoint, skipped: [...standpoint.skipped, input] })}&${ASKING.join("=")}`}>{words.skip}</a>{open.length > 1 && <span>{words.more(open.length - 1)}</span>}</p>
        </div>
      </div>
    </details>
  );
}

/** Whether whoever has this address is being asked one number after the other. */
export function isAsking(params: Params): boolean {
  return one(params[ASKING[0]]) === ASKING[1];
}

/** The drawing that the form itself shows beside the field. */
function Spot({ form: { fields, outline }, rig, input, label }: { readonly form: RigForm; readonly rig: Rig; readonly input: string; readonly label: string }) {
  const field = fields.find((f) => f.input === input);
  if (!field) return null;
  const part = outline.parts.find((entry) => entry.part.id === field.group)?.part;
  const inlet = outline.inlets.find((entry) => entry.key === field.group)?.inlet;
  return <TapeSpot what={field.what} rig={rig} label={label} {...(part ? { part } : {})} {...(inlet ? { inlet } : {})} />;
}
