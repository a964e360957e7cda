import type { GuestRecord } from "@/lib/store/guests-data";
import { catalogueOf } from "@/lib/wording";
import styles from "./guests.module.css";

const { manageGuests: { file: words }, stays: stayWords } = catalogueOf();

/** One record in a line: when, where, how it stands; whose, where that is to be told. */
export function RecordLine({ record: { kind, state, nights, site, name }, named = false }: { readonly record: GuestRecord; readonly named?: boolean }) {
  return (
    <>
      {named && <strong>{name}</strong>}
      <span className={styles.when}>{stayWords.span(nights)}</span>
      <span>{kind === "unmet" || state === null ? words.request : `${site ?? words.noSite}, ${stayWords.states[state].toLowerCase()}`}</span>
    </>
  );
}
