import { count } from "./text";

/** A stay taken down on the phone or at the window. */
export const deskNew = {
  title: "New stay",
  lead: "Type what the caller says, press Enter; then the name, and Enter again.",
  call: "Kind and length", arrive: "Arrive", depart: "Nights or depart", adults: "Adults", children: "Children", pets: "Pets", loop: "Loop", anyLoop: "Any",
  show: "Show free sites",
  dayFaults: {
    empty: "Give a day.", "not-a-date": "Not a day we can read: try jun 18, 6/18, fri or +3.", "no-such-day": "There is no such day.", past: "That day has passed.",
    "not-after": "Must be after the arrival.", "too-long": "At most 400 nights.",
  },
  callFault: "Type a kind and a length, such as tt 31 or class a 34.",
  countFault: "0 to 30.",
  free: (many: number) => `${count(many, "site is free and fits", "sites are free and fit")}.`,
  noneFree: "No free site fits. Below: what fits and is taken, and what is free and does not fit.",
  sites: "Free for these nights, best first",
  any: "Any that fits: give a site later",
  poor: "Free, but does not fit",
  takenList: (labels: string) => `Would fit, but taken: ${labels}.`,
  price: "no price",
  name: "Name", phone: "Phone", email: "E-mail", plate: "Plate", note: "Note",
  as: "Save it as", kinds: { booked: "booked", arrived: "here now (walk-in)", requested: "a request", held: "on hold" },
  why: "Why (for a poor fit)",
  book: "Save the stay",
  needsSite: "Choose a site for this.",
  limits: "A bigger party than the site allows is a poor fit, too.",
} as const;
