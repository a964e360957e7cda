import type { Verdict } from "@/lib/fit";
import type { Quote, QuoteFault } from "./quote";
import type { LimitFault } from "./settings";
import type { Change, MoveJudgement, StayState } from "./states";

/** Why a stay that can be read cannot be had, or not be changed so. Data for a sentence; the dates themselves come first. */
export type StayFault =
  | LimitFault
  | QuoteFault
  /** The departure is not after the arrival that stands. */
  | { readonly code: "no-nights" }
  /** The table of moves does not allow it. */
  | { readonly code: "move"; readonly from: StayState | null; readonly to: StayState; readonly why: Extract<MoveJudgement, { allowed: false }>["why"] }
  /** That is not for this actor to change in this state. */
  | { readonly code: "change"; readonly state: StayState; readonly change: Change }
  /** The price that was agreed to is not the price. Here is the one that is. */
  | { readonly code: "price"; readonly quote: Quote }
  /** A stay that is more than held needs somebody's name. */
  | { readonly code: "guest-needed" }
  /** A guest needs one way to be reached. */
  | { readonly code: "contact-needed" }
  /** The rig does not fit this site, or nobody knows that it does. The desk may take it all the same, and says why. */
  | { readonly code: "fit"; readonly site: string; /** What its post says. */ readonly label: string; readonly verdict: Verdict; /** The reasons, as the fit gives them. */ readonly reasons: readonly string[] }
  /** No site that is free fits, where any that fits was asked for. */
  | { readonly code: "none-fits" }
  /** A hold, and an arrival, is on some site. */
  | { readonly code: "site-needed" }
  /** The guest chose this site: who moves them says why. */
  | { readonly code: "reason-needed" }
  /** Who has arrived does not arrive on another day. */
  | { readonly code: "arrive-fixed" }
  /** The same key was sent with another request. */
  | { readonly code: "key-reused" };
