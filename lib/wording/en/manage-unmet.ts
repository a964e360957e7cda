import { cap, count, list } from "./text";

const requests = (many: number) => count(many, "request", "requests");
const sites = (many: number) => count(many, "site", "sites");

/** Requests that found nothing: what the park could not give, and to whom it may still answer. */
export const manageUnmet = {
  title: "Requests that found nothing",
  lead: "What guests looked for and did not find, and why. A rig asked for twice on one day for the same nights is one request.",
  filter: {
    period: "Asked in the last",
    days: (many: number) => (many === 365 ? "year" : `${many} days`),
    which: "Show",
    whiches: { all: "All of them", word: "Those who left word", open: "Those still to be answered" },
    go: "Show",
  },
  summary: {
    none: "Nobody looked for a site in vain in this time.",
    line: (all: number, times: number) => `${requests(all)} found nothing${times > all ? `, asked ${times} times` : ""}.`,
    taken: (many: number) => `For ${requests(many)} there were sites that fit, but all were taken.`,
    unfit: (many: number) => `For ${requests(many)} no site takes the rig, free or not.`,
    most: (many: number) => `Only the newest ${many} are counted.`,
  },
  counts: {
    title: "What stood in the way",
    caption: "A request counts for everything that turned its rig away from some site.",
    what: "What",
    requests: "Requests",
    unfit: "Where no site fit",
    sites: "Sites at once",
    ofAll: (many: number, all: number) => `${many} of ${all}`,
    at: (thing: string, site: string) => `${thing} at ${site}`,
    gone: "something that is no longer on the site",
    sitesMost: (most: number) => (most === 1 ? "1" : `up to ${most}`),
    more: (many: number) => `${count(many, "thing", "things")} more`,
  },
  list: {
    title: "The requests, newest first",
    none: "None of these.",
    asked: (day: string, times: number) => `Asked ${day}${times > 1 ? `, ${times} times` : ""}`,
    rig: (kind: string, length: string) => `${kind}, ${length}`,
    wanted: (loop: string | undefined, services: readonly string[]) => `Wanted ${list([...(loop ? [`loop ${loop}`] : []), ...services])}.`,
    taken: (many: number) => `${cap(sites(many))} fit, ${many === 1 ? "but was taken" : "but all were taken"}.`,
    noneFit: "No site fits.",
    why: (things: readonly string[]) => `Turned away by ${list(things)}.`,
    by: (thing: string, many: number) => `${thing} (${sites(many)})`,
    unknown: "No reason was kept.",
    leftWord: "Left word:",
    nobody: "Left no word.",
    data: "Their data",
    dataOf: (name: string) => `Their data: ${name}`,
    answer: "Mark as answered",
    answerFor: (name: string) => `Mark as answered: ${name}`,
    answered: (day: string, by: string) => `Answered ${day} by ${by}.`,
    more: "Show more",
  },
  said: { answered: "Marked as answered.", gone: "That request is no longer there." },
} as const;
