/** The two systems a reader may choose. Data is in millimetres whichever it is. */
export type Units = "ft-in" | "metric";
export const unitSystems = ["ft-in", "metric"] as const satisfies readonly Units[];

/** What a number without a unit means: it depends on the field and on the reader's units. */
export type BareUnit = "ft" | "in" | "m" | "cm";

/**
 * Why a text is not a length, as data; `wording` makes the sentence.
 *
 * `empty` nothing typed. `unreadable` not a length at all. `negative` below zero. `mixed` feet with centimetres.
 * `order` the smaller unit first, or one unit twice. `part-fraction` a fraction before a smaller unit (24.5 ft 6 in).
 * `carry` the smaller unit reaches a whole larger one (5 ft 14 in). `comma` a comma that may mean thousands.
 * `too-long` more than 500 m.
 */
export type LengthFault = "empty" | "unreadable" | "negative" | "mixed" | "order" | "part-fraction" | "carry" | "comma" | "too-long";

export type ParsedLength = { readonly ok: true; readonly mm: number } | { readonly ok: false; readonly fault: LengthFault; readonly text: string };

/**
 * Reads what a person types for a length: 24' 6", 24 ft 6 in, 24'6 1/2", 294 in, 24.5, 7.5 m, 750 cm, 7,5 m, 7 m 50 cm.
 * A number without a unit counts as `bare`, save after feet, where it counts as inches. Rounded to a tenth of a
 * millimetre, far below what a tape shows.
 */
export function parseLength(text: string, bare: BareUnit): ParsedLength {
  const fail = (fault: LengthFault): ParsedLength => ({ ok: false, fault, text });
  const plain = normaliseText(text);
  if (plain === "") return fail("empty");
  if (/^-/.test(plain)) return fail("negative");
  if (/\d,\d{3}(?!\d)/.test(plain)) return fail("comma");
  const terms = termsOf(plain.replace(/(\d),(\d)/g, "$1.$2"), bare);
  if (!terms) return fail("unreadable");
  const fault = faultOf(terms);
  if (fault) return fail(fault);
  const total = terms.reduce((sum, { amount, unit }) => sum + amount * MM_PER[unit], 0);
  if (total > FARTHEST) return fail("too-long");
  return { ok: true, mm: Math.round(total * 10) / 10 };
}

type Unit = "ft" | "in" | "m" | "cm" | "mm";
interface Term {
  readonly amount: number;
  readonly unit: Unit;
  readonly whole: boolean;
}

const MM_PER: Record<Unit, number> = { ft: 304.8, in: 25.4, m: 1000, cm: 10, mm: 1 };
const IMPERIAL: readonly Unit[] = ["ft", "in"];
/** 500 m, as the schemas have it: longer is another unit or a slip. */
const FARTHEST = 500_000;

const UNIT_WORDS: Record<string, Unit> = {
  "'": "ft", ft: "ft", foot: "ft", feet: "ft",
  '"': "in", in: "in", inch: "in", inches: "in",
  m: "m", metre: "m", metres: "m", meter: "m", meters: "m",
  cm: "cm", mm: "mm",
};

const VULGAR: Record<string, string> = { "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8" };

/** One spelling for the many ways keyboards and phones write feet, inches, fractions, minus and space. */
function normaliseText(text: string): string {
  return text
    .toLowerCase()
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => VULGAR[sign]!)
    .replace(/[\u2212\u2013\u2014]/g, "-")
    .replace(/\u2044/g, "/")
    .replace(/[′‘’ʹ´`]/g, "'")
    .replace(/[″“”ʺ]|''/g, '"')
    .replace(/\s+/g, " ")
    .trim();
}

/** `3`, `3.5`, `.5`, `3 1/2`, `3-1/2` or `1/2`, then a unit word or none. */
const TERM = /^(?:(\d+)[ -]+(\d+)\/(\d+)|(\d+)\/(\d+)|(\d+(?:\.\d*)?|\.\d+)) ?(?:(feet|foot|ft|inches|inch|in|metres|metre|meters|meter|mm|cm|m)(?![a-z])\.?|(['"]))?[ ,]*(?:-(?=\d))?/;

function termsOf(plain: string, bare: BareUnit): Term[] | null {
  const terms: Term[] = [];
  let rest = plain;
  while (rest !== "") {
    const match = TERM.exec(rest);
    if (!match) return null;
    const amount = amountOf(match);
    const previous = terms.at(-1);
    const word = match[7] ?? match[8];
    const unit = word !== undefined ? UNIT_WORDS[word]! : previous?.unit === "ft" ? "in" : previous ? null : bare;
    if (unit === null || amount === null) return null;
    terms.push({ amount, unit, whole: Number.isInteger(amount) });
    rest = rest.slice(match[0].length);
    // "24 6" or "24-6" could be feet and inches or a slip of the finger: no unit, no guess.
    if (word === undefined && rest !== "") return null;
  }
  return terms;
}

function amountOf(match: RegExpExecArray): number | null {
  const [, whole, above, below, onlyAbove, onlyBelow, decimal] = match;
  if (decimal !== undefined) return Number(decimal);
  const top = Number(above ?? onlyAbove), bottom = Number(below ?? onlyBelow);
  if (bottom === 0) return null;
  return Number(whole ?? 0) + top / bottom;
}

function faultOf(terms: readonly Term[]): LengthFault | null {
  const imperial = terms.filter(({ unit }) => IMPERIAL.includes(unit)).length;
  if (imperial > 0 && imperial < terms.length) return "mixed";
  for (let i = 1; i < terms.length; i++) {
    const larger = terms[i - 1]!, smaller = terms[i]!;
    if (MM_PER[larger.unit] <= MM_PER[smaller.unit]) return "order";
    if (!larger.whole) return "part-fraction";
    // 12, 10, 100 or 1000 of them, whole: compared as a count, since 12 x 25.4 falls short of 304.8 in binary.
    if (smaller.amount >= Math.round(MM_PER[larger.unit] / MM_PER[smaller.unit])) return "carry";
  }
  return null;
}
