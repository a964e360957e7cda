import { SendForm } from "../../send-form";
import { catalogueOf } from "@/lib/wording";
import { cancelFromForm } from "../actions";
import styles from "../stay.module.css";
import { Account } from "./account";
import type { GuestStay } from "./read-stay";
import { Terms } from "../../terms";

const { guestStay: { cancelling: words, hold, stay: stayWords }, stays } = catalogueOf();

/** Says what canceling today comes to; the second press does it. */
export function Cancelling({ data, token }: { readonly data: GuestStay; readonly token: string }) {
  const { stay: { nights }, terms, account, cost, currency, context: { today } } = data;
  return (
    <>
      <h2>{words.title}</h2>
      <Cost data={data} />
      {account.quotes.length > 0 && <><p>{words.why}</p><Terms steps={terms} arrive={nights.arrive} currency={currency} today={today} /></>}
      <SendForm action={cancelFromForm} fields={[]} hidden={{ token, kept: String(cost.kept) }} submit={words.yes} busy={hold.busy} />
      <p className={styles.way}><a className={styles.button} href={`/stay/${token}`}>{words.no}</a></p>
    </>
  );
}

/** A stay that was canceled: what it came to on that day. */
export function Cancelled({ data }: { readonly data: GuestStay }) {
  return (
    <>
      {data.account.quotes.length > 0 && <><h2>{words.done}</h2><Cost data={data} /><Account data={data} /></>}
      <h2>{stayWords.desk}</h2>
      <p>{stayWords.deskLine(data.park.name)}</p>
    </>
  );
}

function Cost({ data: { cost: { kept, back, owed }, currency } }: { readonly data: GuestStay }) {
  const money = (amount: number) => stays.money(amount, currency);
  return <p className={styles.cost}>{kept === 0 ? words.keepsNothing : words.keeps(money(kept))} {back > 0 ? words.back(money(back)) : owed > 0 ? words.owed(money(owed)) : words.nothingBack}</p>;
}
