import { cap } from "./text";

interface Telling {
  readonly change: "more" | "fewer";
  readonly side: "below" | "above";
  readonly first: string;
  readonly last: string;
  readonly sites: number;
}

const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
const numberWord = (n: number) => NUMBERS[n] ?? String(n);

/** What a guest is asked to measure next, and what the answer may change. */
export const questions = {
  title: "Measure this next",
  /** How much hangs on it: sites where standing there at all does, and further ones where what to bring does. */
  lead: (decides: number, brings: number) => {
    if (decides === 0) return `Whether you have to bring something to ${brings === 1 ? "one site" : `${numberWord(brings)} sites`} hangs on one number you have not measured.`;
    return `Whether ${decides === 1 ? "one site fits" : `${numberWord(decides)} sites fit`} hangs on one number you have not measured.`;
  },
  measure: (what: string) => `Measure ${what}.`,
  nowAt: (value: string) => `We took ${value}.`,
  /** "Under 9 ft 2 in, four more sites fit." "Over 11 ft 4 in sites drop out; over 11 ft 8 in, three fewer fit." */
  effect: ({ change, side, first, last, sites }: Telling) => {
    const where = side === "below" ? "under" : "over";
    const verb = sites === 1 ? "fits" : "fit";
    const many = `${numberWord(sites)} ${change} ${sites === 1 ? "site" : "sites"} ${verb}`;
    if (first === last || sites === 1) return `${cap(where)} ${first}, ${many}.`;
    return change === "more" ? `${cap(where)} ${first} sites begin to fit; ${where} ${last}, ${many}.` : `${cap(where)} ${first} sites drop out; ${where} ${last}, ${many}.`;
  },
  gearOnly: "It changes what you have to bring.",
  together: "That is so only if other numbers you have not measured run the same way.",
  yours: "Your number",
  submit: "Check again",
  skip: "I can’t measure that now",
  none: "Nothing you have yet to measure changes an answer.",
  allSkipped: "Some answers hang on numbers you could not measure.",
  askAgain: "Ask me again",
  more: (n: number) => (n === 1 ? "One more to measure after this." : `${cap(numberWord(n))} more to measure after this.`),
  working: "Looking for what is worth measuring…",
  withoutScript: "What should I measure?",
  hangs: (what: string) => `Not sure yet: measure ${what}.`,
};
