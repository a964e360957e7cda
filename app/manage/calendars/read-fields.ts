import { manageCalendars } from "@/lib/wording/en/manage-calendars";

const { faults: words } = manageCalendars;

const longestName = 80;
const longestAddress = 2000;

/** What was entered, as it was entered, and what is wrong with it by field; nothing where all is right. */
export interface Entered {
  readonly values: Readonly<Record<string, string>>;
  readonly faults: Readonly<Record<string, string>>;
}

/** A feed's site and name; of `sites`, ids. */
export function readFeedFields(form: FormData, sites: ReadonlySet<string>): Entered {
  const values = textsOf(form, ["site", "name"]);
  return { values, faults: faultsOf([["site", siteFault(values["site"]!, sites)], ["name", nameFault(values["name"]!)]]) };
}

/** An outside calendar's site, name and address. */
export function readOutsideFields(form: FormData, sites: ReadonlySet<string>): Entered {
  const values = textsOf(form, ["site", "name", "url"]);
  return { values, faults: faultsOf([["site", siteFault(values["site"]!, sites)], ["name", nameFault(values["name"]!)], ["url", addressFault(values["url"]!)]]) };
}

/** The address as it is read: `webcal` is how some programs write that a calendar is behind an https address. */
export function addressOf(entered: string): string {
  return new URL(entered.replace(/^webcals?:/i, "https:")).href;
}

function textsOf(form: FormData, names: readonly string[]): Record<string, string> {
  return Object.fromEntries(names.map((name) => { const value = form.get(name); return [name, typeof value === "string" ? value.trim() : ""]; }));
}

function faultsOf(found: readonly (readonly [string, string | null])[]): Record<string, string> {
  return Object.fromEntries(found.filter((entry): entry is readonly [string, string] => entry[1] !== null));
}

function siteFault(site: string, sites: ReadonlySet<string>): string | null {
  return sites.has(site) ? null : words.siteMissing;
}

function nameFault(name: string): string | null {
  if (name === "") return words.nameMissing;
  return name.length > longestName ? words.nameLong(longestName) : null;
}

/** Where it leads is judged as it is read: a name may lead elsewhere tomorrow. */
function addressFault(address: string): string | null {
  if (address === "") return words.urlMissing;
  if (address.length > longestAddress) return words.urlLong(longestAddress);
  const url = URL.canParse(address.replace(/^webcals?:/i, "https:")) ? new URL(address.replace(/^webcals?:/i, "https:")) : null;
  if (!url) return words.urlForm;
  if (!/^https?:$/.test(url.protocol)) return words.urlScheme;
  return url.username !== "" || url.password !== "" ? words.urlUser : null;
}
