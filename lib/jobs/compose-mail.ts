import type { KeptText, MailMatter } from "@/lib/store/mail-sending";
import { environment } from "@/lib/store/environment";
import { catalogueOf } from "@/lib/wording";
import type { MailFacts } from "@/lib/wording/en/mail";

/** Mail as it goes out. */
export interface MailText {
  readonly to: string;
  readonly subject: string;
  readonly body: string;
  /** The same without its private link: a copy that lies in the database opens no stay. */
  readonly kept: KeptText;
}

/** Writes mail from a stay as it stands. `origin` is the address that guests reach this application by. */
export function composeMail(matter: MailMatter, origin: string): MailText {
  const { mail: words } = catalogueOf();
  const link = `${origin}/stay/${matter.link}`;
  const facts = factsOf(matter, link);
  const subject = oneLine(words.subject(facts));
  return { to: matter.to, subject, body: words.body(facts), kept: { subject, body: words.body({ ...facts, link: words.linkTaken }) } };
}

/** The address that guests reach this application by: as it is set, else as this server listens. */
export function ownOrigin(): string {
  const { PADWRIGHT_URL, HOST, PORT } = environment();
  const anywhere = HOST === "127.0.0.1" || HOST === "0.0.0.0" || HOST === "::";
  return PADWRIGHT_URL ?? `http://${anywhere ? "localhost" : HOST}:${PORT ?? 3000}`;
}

/** Nothing that a person typed can begin another line, of a header or of the text. */
export function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, " ").replace(/ {2,}/g, " ").trim();
}

/**
 * A name as it may stand in a greeting, else null. Whoever fills in the form may give somebody else's address, and what
 * they give as their name is then read by that person as our words: so it has to look like a name, and like no address.
 */
export function greetedName(name: string): string | null {
  const line = oneLine(name);
  return /^[\p{L}\p{M}'’.,& -]{1,60}$/u.test(line) && !/\.\p{L}{2}/u.test(line) ? line : null;
}

/** A loop as it may stand in the text, for the same reason: over the interface anything may be written there. */
function shownLoop(loop: string | undefined): string | null {
  const line = oneLine(loop ?? "");
  return /^[\p{L}\p{M}\p{N}'’& -]{1,40}$/u.test(line) ? line : null;
}

function factsOf({ kind, park, stay, site, settings, account, cost }: MailMatter, link: string): MailFacts {
  const { guestStay } = catalogueOf();
  return {
    kind, link, cost,
    park: oneLine(park.name),
    name: stay.guest && greetedName(stay.guest.name),
    reference: stay.reference,
    site: site === null ? null : oneLine(site),
    wanted: { loop: shownLoop(stay.wanted.loop), services: stay.wanted.services },
    nights: stay.nights,
    checkIn: settings.checkIn,
    checkOut: settings.checkOut,
    until: stay.until === null ? null : guestStay.clock(stay.until, settings.zone),
    currency: account.quotes[0]?.currency ?? "USD",
    total: account.quotes.length > 0 ? account.total : null,
    depositDue: account.depositDue,
  };
}
