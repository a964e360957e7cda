import { guestStay } from "@/lib/wording/en/guest-stay";
import type { SendField } from "../send-form";

const { hold: { fields, hints } } = guestStay;

/** Who is coming and how to reach them. */
export const contactFields: readonly SendField[] = [
  { name: "name", label: fields.name, type: "text", complete: "name", most: 80 },
  { name: "email", label: fields.email, type: "email", complete: "email", most: 200, hint: hints.contact },
  { name: "phone", label: fields.phone, type: "tel", complete: "tel", most: 40 },
  { name: "plate", label: fields.plate, type: "text", complete: "off", most: 20, hint: hints.plate },
];

/** What they want to tell besides. */
export const noteField: SendField = { name: "note", label: fields.note, type: "text", complete: "off", most: 500 };
