import { catalogueOf } from "@/lib/wording";
import { SendForm } from "../send-form";
import { leaveWordFromForm } from "../stay/actions";

/** How to reach a guest who found nothing. */
export function LeaveWord({ query, units }: { readonly query: string; readonly units: string }) {
  const { nothing: { word: words }, hold: { fields, hints, busy } } = catalogueOf().guestStay;
  return (
    <SendForm action={leaveWordFromForm} submit={words.submit} busy={busy} hidden={{ query, units }} title={words.title} line={`${words.line} ${hints.contact}`}
      fields={[{ name: "name", label: fields.name, type: "text", complete: "name", most: 80 }, { name: "email", label: fields.email, type: "email", complete: "email", most: 200 }, { name: "phone", label: fields.phone, type: "tel", complete: "tel", most: 40 }, { name: "note", label: words.note, type: "text", complete: "off", most: 500 }]} />
  );
}
