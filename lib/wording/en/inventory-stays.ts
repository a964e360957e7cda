import type { Fault, FaultCode, Occupant, StayAdded, StayChanged } from "@/lib/exchange";
import { asDate } from "@/lib/stays/dates";
import { stays } from "./stays";
import { count } from "./text";

/** Stays that come in as a table: what is wrong with its cells, and what it would do. */

type StayFaultCode = Extract<FaultCode, "date-order" | "short-year" | "no-such-day" | "no-stay" | "stay-fixed" | "stay-begins" | "site-left" | "column-needed" | "cell-needed" | "rig-length" | "rig-differs" | "stay" | "nights-taken">;

const quoted = (text: string | undefined) => `“${text ?? ""}”`;
const nameOf = (column: string | undefined) => (column ?? "arrive").replace(/\s*[([].*$/, "");

/** Both ways out of a date that says its parts in an order nobody named. */
function unordered({ given, need, column, count: cells = 1 }: Fault): string {
  const [first, second] = (need ?? "").split(" or ");
  if (need !== undefined && second === undefined && /^[a-z]\W/.test(first ?? "")) return `${quoted(given)} does not go with the order ${need} in the header.`;
  const readings = second ? `${quoted(given)} may be ${first} or ${second}.` : `${quoted(given)} is not written as ${first || "2027-07-04"}.`;
  const others = cells > 1 ? ` ${count(cells, "date", "dates")} in this column ${cells === 1 ? "is" : "are"} like it.` : "";
  return `${readings}${others} Say the order in the header, such as ${nameOf(column)} (m/d/y) or ${nameOf(column)} (d/m/y), or write dates as 2027-07-04.`;
}

function whoHas(by: Occupant | undefined): string {
  switch (by?.kind) {
    case "stay": return `stay ${by.reference}`;
    case "hold": return "a guest who is filling in the form just now";
    case "closure": return `a closure: ${by.reason}`;
    case "row": return `row ${by.row} of this table`;
    case undefined: return "somebody";
  }
}

export const stayFaults: Readonly<Record<StayFaultCode, (fault: Fault) => string>> = {
  "date-order": unordered,
  "short-year": ({ given }) => `${quoted(given)} has a year of two digits. Write all four.`,
  "no-such-day": ({ given, need }) => `${quoted(given)} is no day of the calendar${need ? `, read in the order ${need}` : ""}, from 2000 to 2199.`,
  "no-stay": ({ given }) => `There is no stay ${quoted(given)}. Leave the cell empty for a new stay: it gets its reference here.`,
  "stay-fixed": ({ given, need }) => `${quoted(given)} is not the ${need} of this stay. That is changed on the stay’s own page, at the desk.`,
  "stay-begins": ({ given }) => `A new stay is booked or requested, not ${quoted(given)}.`,
  "site-left": ({ given }) => `The stay is on ${given}. Name that site or another: a stay is never taken off its site here.`,
  "column-needed": ({ need }) => `The column ${quoted(need)} is missing. A new stay needs it.`,
  "cell-needed": () => "It is empty. A stay needs it.",
  "rig-length": ({ given }) => `${quoted(given)} is no length of a rig. From 8 ft 3 in to 65 ft (2.5 to 20 m), hitch included.`,
  "rig-differs": ({ given, need }) => `${quoted(given)} is not what the rig ${need} is. Leave this cell or the rig empty.`,
  stay: ({ rule }) => (rule ? stays.fault(rule) : ""),
  "nights-taken": ({ given, by, nights }) => `Site ${given} is taken${nights ? ` from ${stays.day(nights.arrive)} to ${stays.day(nights.depart)}` : ""} by ${whoHas(by)}.`,
};

const columnNames: Readonly<Record<string, string>> = { arrive: "arrival", depart: "departure" };
const said = (column: string, text: string) => (text === "" ? "none" : column === "arrive" || column === "depart" ? stays.day(asDate(text)) : text);

/** What the page and the command line say of stays that would come in. */
export const stayWords = {
  leavesChosen: "The guest chose the site that they would leave.",
  addedTitle: "New stays", changedTitle: "Changed stays",
  /** "Ada Quill: Fri, Jul 2 to Sun, Jul 4, 2027 (2 nights), site A-01". */
  added: ({ guest, nights, label, state }: Pick<StayAdded, "guest" | "nights" | "label" | "state">) => `${guest.name}: ${stays.span(nights)}, ${label === "" ? "any site that fits" : `site ${label}`}${state === "requested" ? ", requested" : ""}`,
  changed: ({ guest, reference }: Pick<StayChanged, "guest" | "reference">) => (guest ? `${guest.name}, ${reference}` : reference),
  change: ({ column, before, after }: StayChanged["changes"][number]) => `${columnNames[column] ?? column}: ${said(column, before)} → ${said(column, after)}`,
  fits: {
    title: "Whether the rigs fit their sites",
    none: (asked: number) => (asked === 0 ? "No stay comes onto a site." : asked === 1 ? "One stay comes onto a site, and its rig fits there." : `${count(asked, "stay", "stays")} come onto a site, and each rig fits there.`),
    lead: (poor: number, asked: number) => `${poor.toLocaleString("en-US")} of ${count(asked, "stay", "stays")} looked at ${poor === 1 ? "does" : "do"} not fit the site. ${poor === 1 ? "It is" : "They are"} read in all the same.`,
    line: (row: number, who: string, site: string, verdict: string, reason: string | null) => `Row ${row}, ${who}, site ${site}: ${verdict.charAt(0).toLowerCase()}${verdict.slice(1)}.${reason ? ` ${reason}` : ""}`,
    which: "Which do not fit",
    rest: (n: number) => `${count(n, "stay was", "stays were")} not worked out in time. Open this page again and it goes on from there. The desk is told in any case.`,
    desk: "Stays that do not fit are listed for the desk soon after they are read in, until they are moved or somebody has seen them.",
    working: "Working out whether the rigs fit their sites …",
  },
  how: {
    title: "How a table of stays is written", exampleOf: "A table of two new stays",
    lead: "A row with the reference of a stay changes that stay: its nights, site, guest, plate or note. A row without one is a new stay. Such a table may come from another book:",
    example: "arrive,depart,guest,phone,rig kind,rig length (ft),site\n2027-07-02,2027-07-05,Ada Quill,555 0100,travel trailer,31,B12\n2027-07-03,2027-07-04,Bo Fern,555 0101,van,19,",
    points: [
      "New stays need arrive, depart, guest, rig kind and rig length. In place of kind and length, a column rig may name one of the park’s rigs. Columns adults, children and pets count for prices and rules; two adults without them.",
      "Dates are written 2027-07-02. For another order say it in the header: arrive (m/d/y), depart (d/m/y).",
      "Without a site, any that fits will do, and the desk gives one. Nights that somebody has are told and nothing is read in.",
      "What a rig of that kind and length usually measures is taken for the rest. Where it does not fit its site you are told, and the desk has it on its list.",
    ],
  },
  onLedger: "See the nights", onToday: "The desk’s list",
  noMail: "No mail goes out for stays that are read in. Prices are the park’s of today.",
  noMailChanged: "Guests are not told of a change that is read in: call or write to those whose nights or site change.",
  whyNeeded: "Needed here, since a guest is taken off the site that they chose.",
} as const;
