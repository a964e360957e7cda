import { count, list } from "./text";

const shares = { email: "e-mail", phone: "phone", plate: "plate", name: "name" } as const;
const stays = (many: number) => count(many, "stay", "stays");
const requests = (many: number) => count(many, "request that found nothing", "requests that found nothing");
const both = (of: { readonly stays: number; readonly unmet: number }) => list([...(of.stays ? [stays(of.stays)] : []), ...(of.unmet ? [requests(of.unmet)] : [])]);

/** What the park keeps of its guests: finding it, handing it out, erasing it. */
export const manageGuests = {
  title: "Guests’ data",
  lead: "Find everything the park keeps of a guest, hand it to them as a file, or erase it.",
  find: {
    field: "Name, e-mail, phone, plate or reference",
    go: "Find",
    none: (text: string) => `Nothing is kept for “${text}”. Try less of the name, or the phone number.`,
    found: (guests: number, records: number) => `${count(guests, "guest", "guests")}, ${count(records, "record", "records")}.`,
    most: "Only the latest are listed. Type more to narrow it down.",
    last: (span: string) => `latest: ${span}`,
    holds: both,
    noContact: "no way to reach them kept",
    erased: (of: { readonly stays: number; readonly unmet: number }) => `Erased: ${both(of)}. Nothing there says who it was any more.`,
    nothingErased: "Nothing was erased.",
  },
  file: {
    pageTitle: "A guest’s data",
    back: "Find another guest",
    contact: { email: "E-mail", phone: "Phone", plate: "Plate" },
    theirs: "Theirs",
    theirsLead: "They share the e-mail, or the name with a phone or plate.",
    perhaps: "Perhaps theirs",
    perhapsLead: "Something is the same, but it may be another person. Look before you tick one.",
    sharesOf: (of: readonly (keyof typeof shares)[]) => `same ${list(of.map((one) => shares[one]))}`,
    request: "Asked, found nothing, left word",
    noSite: "no site",
    lent: (things: readonly string[]) => `has ${list(things)} of the park’s`,
    notOver: "not over yet, so it cannot be erased",
    chosen: "What to do with what is ticked",
    export: "Download as a file",
    exportHelp: "One JSON file with all that is kept: stays, prices, payments, notes, loans, mail, history, and word left with requests. The history notes that you made it.",
    erase: "Erase …",
    eraseHelp: "The next page shows what goes and what stays. Nothing is erased yet.",
    none: "Tick at least one first.",
    open: (name: string) => `Open the stay ${name}`,
  },
  erase: {
    pageTitle: "Erase a guest",
    heading: (name: string) => `Erase ${name}?`,
    back: "Back, erase nothing",
    from: (of: { readonly stays: number; readonly unmet: number }) => `From ${both(of)}`,
    left: "Not over yet: left as they are",
    leftLead: "The park needs to know who comes. Erase these once the guest has left, or cancel them first.",
    goesHead: "What goes, for good",
    goes: [
      "Name, e-mail, phone and plate, now and as they were before.",
      "What was written: the guest’s remarks, notes, reasons given for changes, how a payment was made.",
      "Mail, private links, the rig’s name and wishes, and the keys of requests sent by other programs.",
      "All of it in the history as well.",
    ],
    staysHead: "What stays",
    stays: [
      "Nights, site, and the rig’s measures: somebody stood there.",
      "Prices and payments: the books must add up.",
      "Who of the park changed which field, and when, without what was in it.",
      "Loans, so that what is out can come back.",
    ],
    lent: (things: readonly string[]) => `They still have ${list(things)} of the park’s. Once they are erased, nobody can be called about it.`,
    mentionsHead: "The name also stands here",
    mentionsLead: "On stays that are not being erased. These texts stay as they are: look whether the same person is meant.",
    backups: "Backups of the database still hold the guest until they are deleted. Whoever runs the server sees to those.",
    file: "If the guest wants a copy, download it first: afterward there is none.",
    field: (name: string, reference: string | null) => (reference === null ? `To go on, type the name: ${name}` : `To go on, type the name or the reference: ${name} or ${reference}`),
    submit: "Erase for good",
    nothing: "Nothing that is over is ticked, so there is nothing to erase.",
    mistyped: (name: string, reference: string | null) => (reference === null ? `Type exactly: ${name}` : `Type exactly ${name} or ${reference}.`),
    gone: "Something changed since this page was made: a stay is not over any more, or was erased meanwhile. Nothing was erased. Go back and look again.",
  },
  /** Printed into the file that is handed out. */
  inFile: {
    about: "All that the park keeps of this guest. Times are UTC. Dates are the park's own. Money is in the currency's smallest unit. Lengths are in millimeters.",
    name: (reference: string | null) => `guest-${reference ?? "request"}.json`,
  },
} as const;
