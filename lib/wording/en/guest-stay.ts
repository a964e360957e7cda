import type { CancellationStep, HouseRules } from "@/lib/stays/settings";
import type { IsoDate } from "@/lib/stays/dates";
import { addDays } from "@/lib/stays/dates";
import type { NightsFault } from "@/lib/stays/nights";
import { countNights, type Nights } from "@/lib/stays/nights";
import type { StayState } from "@/lib/stays/states";
import { countdown } from "./guest-countdown";
import { stays } from "./stays";
import { cap, count, list } from "./text";

const { day, money, nights: nightsWord, percent, span } = stays;

/** "2:00 PM" of "14:00". */
function hour(clock: string): string {
  const [h, m] = clock.split(":").map(Number) as [number, number];
  return `${h % 12 === 0 ? 12 : h % 12}:${String(m).padStart(2, "0")} ${h < 12 ? "AM" : "PM"}`;
}

/** "4:32 PM" of an instant, on the park's clock. */
function clock(instant: number, zone: string): string {
  return new Intl.DateTimeFormat("en-US", { hour: "numeric", minute: "2-digit", timeZone: zone }).format(instant);
}

/** So that a year is told once, or where another one is meant. */
function yearOf(date: IsoDate): number {
  return Number(date.slice(0, 4));
}

/** What of the price a step keeps. */
function keeps({ keep }: CancellationStep, currency: string): string {
  switch (keep.kind) {
    case "share":
      return keep.basisPoints === 0 ? "nothing" : keep.basisPoints === 10_000 ? "the whole price" : `${percent(keep.basisPoints)} of the price`;
    case "nights":
      return keep.nights === 0 ? "nothing" : `the price of ${nightsWord(keep.nights)}`;
    case "amount":
      return money(keep.amount, currency);
  }
}

/** What cancelling costs, by date, the earliest first, without what is over by `today`; for a stay that begins on `arrive`. */
function terms(steps: readonly CancellationStep[], arrive: IsoDate, currency: string, today: IsoDate): string[] {
  if (steps.length === 0) return ["You can cancel up to the arrival day, and the park keeps nothing."];
  const ahead = steps.filter(({ daysBefore }) => daysBefore === 0 || addDays(arrive, -daysBefore) >= today);
  return ahead.sort((a, b) => b.daysBefore - a.daysBefore).map((step, i, all) => {
    if (step.daysBefore === 0) return `${i === 0 ? "If you cancel" : "After that"}: the park keeps ${keeps(step, currency)}.`;
    return `${i === 0 ? "Cancel by" : i === all.length - 1 ? "After that, by" : "By"} ${day(addDays(arrive, -step.daysBefore))}: the park keeps ${keeps(step, currency)}.`;
  });
}

const dateFaults: Readonly<Record<NightsFault, string>> = {
  "arrive-not-a-date": "Choose a day of the calendar.",
  "depart-not-a-date": "Choose a day of the calendar.",
  "no-nights": "Leave at least one day after you arrive.",
  backwards: "This is before the day you arrive.",
  "too-many-nights": "That is longer than anybody can book.",
};

const stateTitles: Readonly<Record<StayState, string>> = {
  requested: "You have asked for this stay",
  held: "We are holding this site for you",
  booked: "Your stay is booked",
  arrived: "You are here",
  departed: "You have left. Thank you for coming",
  cancelled: "This stay is canceled",
  "no-show": "You did not come",
};

const stateLines: Readonly<Record<StayState, string>> = {
  requested: "The desk looks at it and answers. The site is kept for you until then.",
  held: "Fill in who is coming to make it yours.",
  booked: "There is nothing more to do until you come.",
  arrived: "If something is not right, tell the desk.",
  departed: "Nothing more can be changed here.",
  cancelled: "The site is free for others again.",
  "no-show": "If you are still on your way, call the desk.",
};

/** From dates to a stay: what a guest reads while choosing nights, holding a site and keeping a stay. */
export const guestStay = {
  countdown,
  clock,
  hour,
  desk: (park: string) => `Call or stop by the office of ${park}.`,

  when: {
    title: "When",
    invite: "Know your dates? Add them, and we show what is free and what it costs.",
    lead: "You can leave this empty and only see which sites fit.",
    arrive: "Arrive",
    depart: "Leave",
    show: "Show free sites",
    showSite: "See if it is free",
    busy: "Looking…",
    change: "Change the nights",
    drop: "Without dates",
    nights: (nights: Nights) => `${day(nights.arrive, yearOf(nights.depart))} to ${day(nights.depart)}: ${nightsWord(countNights(nights))}`,
    dateFaults,
    missing: { arrive: "Add the day you arrive.", depart: "Add the day you leave." },
  },

  sites: {
    title: "Sites you can have",
    found: (offered: number, taken: number, nights: Nights) =>
      `${offered === 0 ? "No site that fits is free" : offered === 1 ? "One site that fits is free" : `${offered} sites that fit are free`} for ${nightsWord(countNights(nights))} from ${day(nights.arrive, yearOf(nights.arrive))}${taken > 0 ? `; ${taken} more ${taken === 1 ? "fits but is" : "fit but are"} taken` : ""}.`,
    price: (total: number, currency: string, nights: number) => `${money(total, currency)} in all${nights > 1 ? `, ${money(Math.round(total / nights), currency)} a night` : ""}`,
    perNight: "Per night is the total shared out over the nights, taxes and fees included.",
    noPrice: "Ask the desk for the price.",
    taken: (n: number) => `Taken for these nights (${n})`,
    takenLine: "Your rig fits on these, but somebody has one of the nights.",
    takenMark: "Taken",
    nearest: (nights: Nights) => `Free ${span(nights)}`,
    noneNear: "Not free for as many nights around then.",
    refused: (n: number) => `Sites that do not fit (${n})`,
    mapTaken: "Taken for these nights",
    siteTaken: (site: string, verdict: string) => `Site ${site}: ${verdict}, taken for these nights`,
  },

  any: {
    title: "Any site that fits",
    invite: "No favorite? Let the desk choose.",
    line: "You are sure of a site that fits your rig. Which one it is, the desk decides before you come.",
    link: "Take any site that fits",
    choose: "What it has to have",
    loop: "Loop",
    anyLoop: "Any loop",
    services: "Hookups",
    serviceNames: { power: "Power", water: "Water", sewer: "Sewer" },
    update: "Show the price",
    free: (n: number) => (n === 0 ? "No free site has all of that and fits your rig. Ask for less." : `${count(n, "free site fits", "free sites fit")}.`),
    needDates: "Choose your nights first.",
    back: "Back to the sites",
    wanted: (loop: string | undefined, services: readonly string[]) => cap(`${loop ? `loop ${loop}` : "any loop"}${services.length > 0 ? `, with ${list(services)}` : ""}`),
  },

  nothing: {
    title: { none: "Nothing fits", taken: "Nothing that fits is free" },
    line: { none: "No site of this park takes this rig as you gave it.", taken: "The sites that fit your rig are taken on one of these nights." },
    nearest: "As many nights, close by",
    nearestAt: (site: string, nights: Nights) => `Site ${site}: ${span(nights)}`,
    noneNear: "Nothing within six weeks of these dates.",
    misses: "What comes closest",
    short: "Try a shorter stay, or other dates above.",
    word: {
      title: "Leave word",
      line: "Tell us how to reach you. The desk sees it, and gets in touch if something comes free.",
      note: "Anything that would help (optional)",
      submit: "Leave word",
      done: "We have it. The desk will be in touch if something comes free. Nothing is booked.",
      full: "We cannot keep any more today. Call the desk.",
      stale: "Look at your dates and your rig again before you leave word.",
    },
  },

  here: {
    title: "Your nights",
    free: "Free for your nights.",
    taken: "Taken for these nights.",
    takenNext: (nights: Nights) => `It is free ${span(nights)}.`,
    takenLink: "See the site for those nights",
    others: "Free for your nights, and your rig fits",
    noOthers: "No other site that fits is free for these nights.",
    missed: "Somebody was faster: this site was taken a moment ago.",
    mine: "You are holding this site.",
    mineLink: "Go on with it",
    refusedNow: "This site cannot be held for you as things stand.",
    doesNotFit: "Your rig does not fit here, so it cannot be booked here. Call the desk if you think it does.",
    measureFirst: "With the usual numbers of such a rig it does not fit here. Measure what is asked for above, and it may.",
    hold: (minutes: number) => `Hold this site for ${count(minutes, "minute", "minutes")}`,
    holdBusy: "Holding it…",
    holdLine: "Nobody else can take it while you fill in who is coming. It costs nothing.",
    tooMany: "Many sites were held from where you are. Wait a quarter of an hour, or call the desk.",
    invite: "Add your dates to see whether it is free and what it costs.",
  },

  quote: {
    title: "What it costs",
    item: "For",
    amount: "Amount",
    total: "Total",
    deposit: "Deposit due now",
    depositLine: "You pay it to the park, not here. The desk tells you how.",
    payLine: "You pay at the park, not here.",
    terms: "If you cancel",
    free: "This park has no prices here. Ask the desk.",
    agreed: (on: IsoDate) => `Agreed on ${day(on)}. It does not change any more.`,
  },
  terms,

  hold: {
    until: (time: string) => `Held for you until ${time}.`,
    over: "The hold has run out. You can still go on as long as nobody else takes the site.",
    form: { book: "Book it", ask: "Ask for it" },
    formTitle: { book: "Book this stay", ask: "Ask for this stay" },
    formLine: { book: "Once you press the button the stay is yours.", ask: "The desk looks at it and answers." },
    submit: { book: (total: string | null) => (total ? `Book it for ${total}` : "Book it"), ask: (total: string | null) => (total ? `Ask for it, for ${total}` : "Ask for it") },
    busy: "Sending…",
    fields: { name: "Your name", email: "E-mail", phone: "Phone", plate: "License plate (optional)", note: "Anything we should know (optional)" },
    hints: { contact: "E-mail or phone: one is enough.", plate: "So that the desk knows you when you drive in." },
    faults: {
      name: "Enter your name.",
      nameLong: "Use at most 80 letters.",
      email: "Enter a whole address, such as pat@example.com.",
      phone: "Enter a phone number with at least five digits.",
      plate: "Use at most 20 letters.",
      note: "Use at most 2,000 letters.",
      contact: "Enter an e-mail address or a phone number, so that we can reach you.",
    },
    party: "Who comes",
    partyLine: (adults: number, children: number, pets: number) => list([count(adults, "adult", "adults"), ...(children > 0 ? [count(children, "child", "children")] : []), ...(pets > 0 ? [count(pets, "pet", "pets")] : [])]),
    giveBack: "I do not need it",
    taken: "The site was taken meanwhile. Nothing was booked.",
    gone: "The site is no longer held for you: it went back to the others. Nothing was booked, and nothing is owed.",
    goneOthers: "Free for your nights, and your rig fits",
    goneNone: "No site that fits is free for these nights any more.",
    again: "Hold it again",
    againGone: "It is taken for these nights.",
    search: "See what is free for these nights",
    stale: "The stay was changed meanwhile. Look at it again, then send it once more.",
  },

  stay: {
    page: "Your stay",
    site: "Site",
    when: "When",
    reference: "Reference",
    siteOf: (label: string) => `Site ${label}`,
    anySite: "The desk chooses a site that fits before you come.",
    stateTitles,
    stateLines,
    times: (checkIn: string, checkOut: string) => `Come from ${hour(checkIn)} on, leave by ${hour(checkOut)}.`,
    nights: (nights: Nights) => span(nights),
    keepTitle: "Keep this link",
    keep: "It is the only way to this page. Anyone who has it can change the stay.",
    copy: { label: "The link to this stay", copy: "Copy the link", copied: "Copied", failed: "Select it and copy it by hand" },
    calendar: "Add to calendar",
    card: "Arrival card",
    cardLine: "Where to stop and how to set up, step by step. Print it, or keep it open on your phone.",
    calendarLine: "Downloads a file that your calendar opens.",
    plan: "How you stand",
    bring: "What to bring",
    bringNothing: "What you have is enough for this site.",
    lends: (names: readonly string[]) => `The desk lends some of it as long as there is some left: ${list(names)}.`,
    rules: "House rules",
    quiet: (from: string, to: string) => `Quiet from ${hour(from)} to ${hour(to)}.`,
    generators: (from: string, to: string) => `Generators from ${hour(from)} to ${hour(to)} only.`,
    fires: { "rings-only": "Fires in the fire rings only.", anywhere: "Fires are allowed.", never: "No open fires." } satisfies Record<HouseRules["campfires"], string>,
    price: "Price",
    paid: "Paid so far",
    due: "Deposit still due",
    all: "In all",
    left: "Left to pay",
    back: "Paid back or to be paid back",
    noQuote: "No price was agreed here. Ask the desk.",
    you: "Who is coming",
    edit: "Change name or contact",
    editSubmit: "Save",
    saved: "Saved.",
    rig: "Your rig",
    rigChange: "Change the rig or who comes",
    rigNote: "We check that it still fits before anything changes.",
    rigStart: "This stay was made without our form. Choose your rig to begin with:",
    cancel: "Cancel this stay",
    desk: "The desk",
    deskLine: (park: string) => `To change site or nights, or if anything is unclear: call or stop by the office of ${park}.`,
    here: "Show your way in",
    noFit: "On the present measurements your rig does not fit on this site. Call the desk before you leave home.",
  },

  change: {
    title: "Change your rig",
    submit: "Check it against my site",
    back: "Back to the stay",
    checkTitle: "Does it still fit?",
    before: "Now",
    after: "After the change",
    verdict: "Answer",
    party: "Who comes",
    rig: "Rig",
    accept: "Change it",
    ok: (site: string) => `It fits on site ${site}. Nothing is changed until you press the button.`,
    okAny: "A free site fits. Nothing is changed until you press the button.",
    not: (site: string) => `It does not fit on site ${site}, so nothing was changed.`,
    notAny: "No free site fits it, so nothing was changed.",
    others: "It would fit on these, and they are free for your nights",
    noOthers: "No free site fits it for these nights.",
    call: (park: string) => `To move there, call or stop by the office of ${park}: your stay stays as it is until then.`,
    extras: "The price you agreed to does not change here. For more people, vehicles or pets the desk may ask for more when you come.",
    edit: "Back to the numbers",
    faults: "Some numbers need another look first.",
    done: "Changed. It still fits.",
    same: "That is what we have already.",
  },

  cancelling: {
    title: "Cancel this stay?",
    keeps: (kept: string) => `The park keeps ${kept}.`,
    keepsNothing: "The park keeps nothing.",
    back: (amount: string) => `${amount} of what you paid goes back to you.`,
    owed: (amount: string) => `You still owe ${amount}. The desk tells you how to pay.`,
    nothingBack: "Nothing was paid yet, so nothing goes back.",
    why: "These are the terms you booked under:",
    done: "What canceling came to",
    yes: "Yes, cancel it",
    no: "No, keep it",
    late: "The arrival day has passed. Call the desk.",
    changed: "What it costs has changed since you looked. Look again before you cancel.",
  },

  missing: {
    title: "This link leads to no stay",
    line: "It may be mistyped, or it was replaced by a newer one. Look for the latest message about your stay, or ask the desk for a new link.",
    home: "Look for a site",
  },

  calendar: {
    summary: (site: string | null, park: string) => (site ? `${park}, site ${site}` : park),
    about: (reference: string, checkIn: string, checkOut: string) => `Stay ${reference}. Come from ${hour(checkIn)} on, leave by ${hour(checkOut)}.`,
    link: "Your stay:",
    tentative: "Not confirmed yet.",
  },
} as const;
