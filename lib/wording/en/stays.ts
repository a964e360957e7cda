import type { Verdict } from "@/lib/fit";
import type { Outcome } from "@/lib/stays/outcome";
import type { QuoteLine } from "@/lib/stays/quote";
import type { StayFault } from "@/lib/stays/faults";
import type { IsoDate } from "@/lib/stays/dates";
import type { Nights } from "@/lib/stays/nights";
import type { StayState } from "@/lib/stays/states";
import { formatDay, formatLongDay, formatNights, type CalendarNames } from "../dates";
import { formatMoney } from "../money";
import { count } from "./text";

const calendar: CalendarNames = {
  days: ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"],
  months: ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"],
};

const states: Readonly<Record<StayState, string>> = {
  requested: "Requested",
  held: "On hold",
  booked: "Booked",
  arrived: "Here",
  departed: "Left",
  cancelled: "Canceled",
  "no-show": "Did not come",
};

const outcomeNames: Readonly<Record<Outcome, string>> = {
  "as-planned": "As planned",
  moved: "Stood elsewhere than planned",
  "too-tight": "Too tight",
  damage: "Something was damaged",
};

const nights = (many: number) => count(many, "night", "nights");
const day = (date: IsoDate, year?: number) => formatDay(date, calendar, year);
const percent = (basisPoints: number) => `${Number((basisPoints / 100).toFixed(2))}%`;

/** What stays are called and why one cannot be had, wherever it is said. */
export const stays = {
  calendar,
  states,
  outcomes: outcomeNames,
  day,
  longDay: (date: IsoDate) => formatLongDay(date, calendar),
  nights,
  span: (of: Nights) => formatNights(of, calendar, nights),
  money: (amount: number, currency: string) => formatMoney(amount, currency),
  percent,
  line: (line: QuoteLine, currency: string) => quoteLine(line, currency),
  rounding: "Taxes and shares are each rounded to the smallest coin, half a coin up. The total is the sum of the lines.",
  fault,
} as const;

/** What one line of a quote is for, without its amount. */
function quoteLine(line: QuoteLine, currency: string): string {
  switch (line.code) {
    case "night":
    case "week":
    case "month":
      return `${line.name ? `${line.name}: ` : ""}${count(line.count, line.code, `${line.code}s`)} at ${formatMoney(line.each, currency)}`;
    case "vehicle":
      return `Extra vehicles: ${line.count} at ${formatMoney(line.each, currency)}`;
    case "person":
      return `Extra guests: ${line.count} at ${formatMoney(line.each, currency)}`;
    case "pet":
      return `Pets: ${line.count} at ${formatMoney(line.each, currency)}`;
    case "fee":
      return line.count === 1 ? `${line.name}` : `${line.name}: ${line.count} at ${formatMoney(line.each, currency)}`;
    case "long-stay":
      return `Long stay, ${percent(line.rate)} off`;
    case "tax":
      return `${line.name}, ${percent(line.rate)} of ${formatMoney(line.of, currency)}`;
  }
}

const verdictSaid: Readonly<Record<Verdict, string>> = {
  fits: "it fits",
  gear: "it fits with more gear",
  ask: "whether it fits hangs on a measurement nobody gave",
  unsettled: "nobody could work out in time whether it fits",
  no: "the rig does not fit there",
};

/** Why a stay cannot be had or changed so, as one sentence that says what can be done. */
function fault(it: StayFault): string {
  switch (it.code) {
    case "in-the-past":
      return `The first night has passed. Arrive on ${day(it.earliest)} or later.`;
    case "too-far-ahead":
      return `That is further ahead than we book. Arrive by ${day(it.latest)}.`;
    case "longer-than-allowed":
      return `At most ${nights(it.most)} can be booked at once. Call us for a longer stay.`;
    case "no-nights":
      return "A stay has at least one night: the departure is after the arrival.";
    case "min-nights":
      return `These nights need a stay of at least ${nights(it.least)}.`;
    case "no-price":
      return `There is no price for the night of ${day(it.night)} on such a site. Call us.`;
    case "move":
      return moveFault(it);
    case "change":
      return `This can no longer be changed: the stay is ${states[it.state].toLowerCase()}.`;
    case "price":
      return `The price has changed: it is now ${formatMoney(it.quote.total, it.quote.currency)}. Look at it again before you agree.`;
    case "guest-needed":
      return "Give a name.";
    case "contact-needed":
      return "Give an e-mail address or a phone number, so that we can reach you.";
    case "fit":
      return `Site ${it.label}: ${verdictSaid[it.verdict]}.`;
    case "none-fits":
      return "None of the sites that are free for these nights fits this rig.";
    case "site-needed":
      return "Choose a site first.";
    case "reason-needed":
      return "The guest chose this site. Say why they are moved.";
    case "arrive-fixed":
      return "They have arrived: the arrival stays as it is.";
    case "key-reused":
      return "This was sent before with other details. Start again.";
  }
}

function moveFault({ from, to, why }: Extract<StayFault, { code: "move" }>): string {
  switch (why) {
    case "guests-may-book":
      return "This park answers requests itself: ask for the stay, and the desk confirms it.";
    case "run-out":
      return "It has not run out yet.";
    case "from-arrival":
      return "Not before the day of arrival.";
    case "after-arrival":
      return "Not before the day after arrival: they may still come.";
    case "until-arrival":
      return "The arrival day has passed. Call the desk.";
    case "no-such-move":
    case "not-theirs":
      return from === null ? `A stay cannot begin as ${states[to].toLowerCase()}.` : `A stay that is ${states[from].toLowerCase()} cannot become ${states[to].toLowerCase()} here.`;
  }
}
