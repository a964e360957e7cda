import type { managePark } from "@/lib/wording/en/manage-park";

interface Entry {
  readonly href: string;
  readonly words: keyof typeof managePark.entries;
  /** Whether the desk may open it as well, or managers alone. */
  readonly desk?: true;
}

/** The pages from which a park is run, in the order in which they are listed. */
export const entries: readonly Entry[] = [
  { href: "/manage/rates", words: "rates" },
  { href: "/manage/unmet", words: "unmet" },
  { href: "/manage/guests", words: "guests" },
  { href: "/manage/survey", words: "survey" },
  { href: "/manage/survey/sheet", words: "fieldSheets", desk: true },
  { href: "/manage/inventory", words: "inventory" },
  { href: "/manage/map", words: "map" },
  { href: "/manage/settings", words: "settings" },
  { href: "/manage/mail", words: "mail", desk: true },
  { href: "/manage/calendars", words: "calendars" },
  { href: "/manage/accounts", words: "accounts" },
];
