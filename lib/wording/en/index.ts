import { accounts } from "./accounts";
import { ask, measure } from "./asks";
import { change, remedyWords, together } from "./changes";
import { deskNew } from "./desk-new";
import { deskStays } from "./desk-stays";
import { fieldSheet } from "./field-sheet";
import { guestRig } from "./guest-rig";
import { guestSites } from "./guest-sites";
import { guestStay } from "./guest-stay";
import { insight } from "./insight";
import { inventory } from "./inventory";
import { learn } from "./learn";
import { manageGuests } from "./manage-guests";
import { manageSettings } from "./manage-settings";
import { manageSettingsStays } from "./manage-settings-stays";
import { mail } from "./mail";
import { manageMail } from "./manage-mail";
import { manageUnmet } from "./manage-unmet";
import { nights } from "./nights";
import { pages } from "./pages";
import { plan } from "./plan";
import { questions } from "./questions";
import { reasons, wishLabels } from "./reasons";
import { clausesOf } from "./refusals";
import { surveyAsk, surveyNotes } from "./survey";
import { cap, list } from "./text";
import { siteChanges } from "./site-changes";
import { staff } from "./staff";
import { stays } from "./stays";
import { things } from "./things";
import { bring, cautions, lengthFault, tightWord, verdicts } from "./verdicts";
import type { Telling } from "./telling";

/** English as it is written in North America. */
export const en = {
  name: "English",
  tag: "en-US",
  thousands: ",",
  list,
  line: (pieces: readonly string[]) => `${cap(pieces.join("; "))}.`,
  verdicts,
  tightWord,
  things,
  reasons: reasons as Record<keyof typeof reasons, (telling: Telling) => string>,
  clausesOf,
  unknownReason: (code: string) => `Something else stands against it (${code}).`,
  wishLabels,
  bring,
  ask,
  measure,
  surveyAsk,
  surveyNotes,
  change,
  together,
  remedyWords,
  cautions,
  lengthFault,
  accounts,
  fieldSheet,
  plan,
  pages,
  guestRig,
  guestSites,
  guestStay,
  questions,
  learn,
  insight,
  inventory,
  staff,
  stays,
  nights,
  deskStays,
  deskNew,
  mail,
  manageMail,
  manageGuests,
  manageUnmet,
  settings: manageSettings,
  staySettings: manageSettingsStays,
  siteChanges,
};
