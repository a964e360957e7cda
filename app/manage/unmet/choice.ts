import { one, type Params } from "../../components/rig-form/params";

export const periods = [7, 30, 90, 365] as const;
export const whiches = ["all", "word", "open"] as const;

/** What of the requests the address asks for. */
export interface UnmetChoice {
  /** Days back from today, this one included. */
  readonly days: number;
  readonly which: (typeof whiches)[number];
  /** Listed at most. */
  readonly most: number;
}

/** Listed at first, and more each time that more is asked for. */
export const page = 50;
/** No page is longer than so many requests. */
const longest = 1000;

export function readChoice({ days, which, most }: Params): UnmetChoice {
  const listed = Number(one(most));
  return {
    days: periods.find((known) => String(known) === one(days)) ?? 30,
    which: whiches.find((known) => known === one(which)) ?? "all",
    most: Number.isInteger(listed) && listed > page ? Math.min(listed, longest) : page,
  };
}

export function addressOf({ days, which, most }: UnmetChoice, more: Readonly<Record<string, string>> = {}): string {
  return `/manage/unmet?${new URLSearchParams({ days: String(days), which, ...(most > page ? { most: String(most) } : {}), ...more }).toString()}`;
}
