import type { Nights } from "@/lib/stays/nights";
import { stays } from "./stays";

const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** By the code of a fault, as lib/jobs/calendar-fault.ts has them: what was wrong, and what to do. */
const faults: Readonly<Record<string, string>> = {
  address: "The address is not one that can be read. Remove the calendar and add it with an address that begins with https://.",
  "private-address": "The address leads to this computer or into a private network, where no calendars are read.",
  "unknown-host": "There is no such host on the internet. Check the address.",
  unreachable: "The host did not answer. Nothing to do if it is back soon.",
  timeout: "It took too long. Nothing to do if it works again soon.",
  redirect: "The address leads on to another that is not read. Add the calendar with the address it ends at.",
  "not-a-calendar": "What came was not a whole calendar file. Check that the address ends in a calendar (.ics) and not in a page.",
  "event-without-date": "One of its events has no date that can be understood. Put it right there, or ask who runs that calendar.",
  "too-many": "It has more events, or an event repeats more often, than is looked at.",
  busy: "Too much else was being worked out here.",
  "not-kept": "It was read, but could not be stored just then.",
};

/** Feeds of a site's nights for others, and outside calendars read in. */
export const manageCalendars = {
  title: "Calendars",
  lead: "So that a site offered in two places is not given to two guests: have the other place’s calendar read here, and hand it yours.",
  caution: (minutes: number) => `Calendars are read every ${minutes} minutes at best, and others may read yours only every few hours. Two guests can still be faster than that. What they both took stands below as a conflict.`,
  site: "Site",
  siteOption: (label: string, loop: string | null) => (loop === null ? label : `${label} (${loop})`),
  chooseSite: "Choose a site",
  feed: {
    taken: "Taken",
    closed: "Closed",
    name: (site: string, park: string) => `${site}, ${park}`,
    gone: "There is no such calendar.",
  },
  feeds: {
    title: "Calendars for others",
    lead: "An address behind which anyone who has it sees which nights of one site are taken or closed. It says nothing of who has them.",
    list: "Calendars for others to read",
    none: "None yet.",
    add: "Give out a site’s calendar",
    nameLabel: "Who it is for",
    nameHint: "Such as the listing it goes to. Only managers see this.",
    submit: "Make an address",
    since: (site: string, day: string) => `${site}, since ${day}`,
    revoke: "End it",
    revokeFor: (name: string) => `End it: ${name}`,
    linkTitle: "Hand over this address",
    linkAbout: (site: string, name: string) => `The nights of ${site}, for ${name}.`,
    linkOnce: "It is shown this once and cannot be shown again. If it is lost, end this one and make a new one.",
    linkLabel: "Address of the calendar",
    copy: "Copy",
    copied: "Copied",
  },
  outside: {
    title: "Calendars from outside",
    lead: "Another place’s calendar of one site. What it has taken is closed here, and opened again when it is free there. A stay you have is never moved for it.",
    list: "Calendars read from outside",
    none: "None yet.",
    add: "Add a calendar from outside",
    nameLabel: "Name",
    nameHint: "Such as the listing it comes from. The desk sees it on the nights it closes.",
    urlLabel: "Address of the calendar",
    urlHint: "It begins with https:// and often ends in .ics. Leave out calendars that hand your own nights back to you.",
    submit: "Add and read it now",
    from: (site: string, host: string) => `${site}, from ${host}`,
    never: "Not read yet.",
    read: (when: string, nights: number) => `Last read ${when}. It closes ${count(nights, "night", "nights")} from today on.`,
    fault: (reason: string, tried: string) => `Could not be read: ${reason} Tried ${tried}.`,
    keeps: "What it closed before stays closed.",
    next: (when: string) => `Next try ${when}.`,
    conflicts: (n: number) => (n === 1 ? "1 conflict." : `${n} conflicts.`),
    conflictLead: "Taken there and here. Call one of the two guests, or cancel it there.",
    conflict: (nights: Nights) => `${stays.span(nights)}:`,
    stay: (reference: string) => `stay ${reference}`,
    readNow: "Read now",
    remove: "Remove",
    actionFor: (action: string, name: string) => `${action}: ${name}`,
    removeHint: "Removing one opens what it closed.",
    reason: (fault: string): string => {
      const [code = "", value = ""] = fault.split(":");
      if (code === "status") return value === "404" || value === "410" ? `There is nothing at the address any more (answer ${value}). Ask for a new one.` : value === "401" || value === "403" ? `The address may not be read without signing in (answer ${value}). Ask for one that may.` : `The host answered ${value} instead of a calendar.`;
      if (code === "too-large") return `It is larger than the ${Math.round(Number(value) / 1_000_000)} MB that are read.`;
      return faults[code] ?? `Something went wrong (${code}).`;
    },
  },
  said: {
    added: "Added. What came of reading it stands below.",
    read: "Read again. What came of it stands below.",
    removed: "Removed. What it closed is open again.",
    ended: "Ended. Nobody can read it any more.",
  },
  faults: {
    summary: "Not added. Put right what is marked.",
    siteMissing: "Choose the site.",
    nameMissing: "Enter a name.",
    nameLong: (most: number) => `Use at most ${most} characters.`,
    urlMissing: "Enter the address of the calendar.",
    urlForm: "Enter a whole address, such as https://listing.example/site-12.ics.",
    urlScheme: "Only addresses that begin with https:// or http:// are read.",
    urlUser: "Leave the name and password out of the address. Ask for an address that needs none.",
    urlLong: (most: number) => `Use an address of at most ${most} characters.`,
    gone: "That calendar is no longer there. The lists below are as they stand now.",
  },
};
