import { catalogueOf } from "@/lib/wording";
import styles from "../today.module.css";

const { deskStays: { find: words } } = catalogueOf();

/** From every desk page; the key / goes to it. */
export function FindForm({ text }: { readonly text: string }) {
  return <form action="/desk/find" role="search" className={styles.find}><label>{words.field}<input type="search" name="q" defaultValue={text} data-find aria-keyshortcuts="/" maxLength={80} /></label><button type="submit">{words.go}</button></form>;
}
