import { z } from "zod";
import { passwordLengths } from "@/lib/store/accounts/auth";
import { catalogueOf } from "@/lib/wording";

/** Faults by the name of their field, as sentences. */
export type Faults = Readonly<Record<string, string>>;

const { faults: words } = catalogueOf().accounts;
const longestName = 80;

const nameSchema = z.string().trim().min(1, words.nameMissing).max(longestName, words.nameLong(longestName));
// PostgreSQL keeps no NUL, and no address is longer than 254.
const emailSchema = z.string().trim().min(1, words.emailMissing).pipe(z.email(words.emailForm).max(254, words.emailForm));
const passwordSchema = z.string().min(1, words.passwordMissing).superRefine((text, at) => {
  const { min, max } = passwordLengths;
  const has = [...text].length;
  if (has > 0 && has < min) at.addIssue({ code: "custom", message: words.passwordShort(min, has) });
  if (text.length > max) at.addIssue({ code: "custom", message: words.passwordLong(max) });
});

const person = z.object({ name: nameSchema, email: emailSchema, password: passwordSchema });
const schemas = {
  person: person.refine(({ email, password }) => email.toLowerCase() !== password.toLowerCase(), { path: ["password"], message: words.passwordIsEmail }),
  signIn: z.object({ email: z.string().trim().min(1, words.emailMissing), password: z.string().min(1, words.passwordMissing) }),
  name: z.object({ name: nameSchema }),
  password: z.object({ password: passwordSchema }),
  change: z.object({ present: z.string().min(1, words.passwordMissing), password: passwordSchema }),
};

type Read<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly faults: Faults };

/** Reads a form that makes or uses an account; every fault at once, the first of each field. */
export function readFields<K extends keyof typeof schemas>(what: K, form: FormData): Read<z.infer<(typeof schemas)[K]>> {
  const typed = Object.fromEntries([...form].map(([name, value]) => [name, typeof value === "string" ? value.replaceAll("\0", "") : ""]));
  const schema: z.ZodType = schemas[what];
  const names = ["name", "email", "present", "password"];
  const read = schema.safeParse({ ...Object.fromEntries(names.map((name) => [name, ""])), ...typed });
  if (read.success) return { ok: true, value: read.data as z.infer<(typeof schemas)[K]> };
  const faults: Record<string, string> = {};
  for (const { path, message } of read.error.issues) faults[String(path[0])] ??= message;
  return { ok: false, faults };
}

/** What may be shown again of what was typed: everything but passwords. */
export function keptOf(form: FormData): Readonly<Record<string, string>> {
  return Object.fromEntries(["name", "email"].flatMap((name) => {
    const value = form.get(name);
    return typeof value === "string" ? [[name, value]] : [];
  }));
}
