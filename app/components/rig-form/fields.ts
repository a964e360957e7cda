import { parseLength, unitSystems, type BareUnit, type Units } from "@/lib/measure";
import { overallLength, type Rig } from "@/lib/rig";
import { catalogueOf, formatLength } from "@/lib/wording";

/** The form's lengths: what each is called in the address, where it stands on a rig, and what a bare number means. */
export const lengthFields = ["length", "hitch", "width", "height", "powerCord", "waterHose", "sewerHose", "liftSide", "liftAlong"] as const;
export type LengthField = (typeof lengthFields)[number];
export const countFields = ["adults", "children", "pets", "tents"] as const;
export type CountField = (typeof countFields)[number];

/** Wishes that a site can be judged by. */
export const wishes = ["pull-through", "back-in", "shade"] as const;

const SMALL: ReadonlySet<LengthField> = new Set(["liftSide", "liftAlong"]);
const NOT_ZERO: ReadonlySet<LengthField> = new Set(["length", "width", "height"]);
/** Beyond these a number is a slip or another unit: 30 m long, 4 m wide, 6 m high. */
const MOST = { length: 30_000, width: 4_000, height: 6_000 } satisfies Partial<Record<LengthField, number>>;

export function bareUnit(field: LengthField, units: Units): BareUnit {
  if (SMALL.has(field)) return units === "metric" ? "cm" : "in";
  return units === "metric" ? "m" : "ft";
}

export function typicalLength(rig: Rig, field: LengthField): number {
  switch (field) {
    case "length": return overallLength(rig);
    case "hitch": return rig.hitch?.length ?? 0;
    case "width": return rig.body.width;
    case "height": return rig.body.height;
    default: return rig.gear[field];
  }
}

/** What stands in the field before anything is typed: the rig's own number, to the nearest step of the units. */
export function typicalText(rig: Rig, field: LengthField, units: Units): string {
  return formatLength(typicalLength(rig, field), units, "nearest");
}

export type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly fault: string };

/** A field that still says what the rig is known to be counts as that, to the millimetre, in whichever units it says it. */
export function readLength(text: string, rig: Rig, field: LengthField, units: Units): Read {
  if (unitSystems.some((system) => text.trim() === typicalText(rig, field, system))) return { ok: true, value: typicalLength(rig, field) };
  const words = catalogueOf();
  const parsed = parseLength(text, bareUnit(field, units));
  if (!parsed.ok) return { ok: false, fault: words.lengthFault(parsed.fault, parsed.text, units) };
  if (parsed.mm === 0 && NOT_ZERO.has(field)) return { ok: false, fault: words.pages.fieldFaults.zero };
  const most: number | undefined = MOST[field as keyof typeof MOST];
  if (most !== undefined && parsed.mm > most) return { ok: false, fault: words.pages.fieldFaults.tooLarge[field as keyof typeof MOST] };
  return { ok: true, value: parsed.mm };
}

export function readCount(text: string): Read {
  const trimmed = text.trim();
  return /^\d{1,2}$/.test(trimmed) ? { ok: true, value: Number(trimmed) } : { ok: false, fault: catalogueOf().pages.fieldFaults.count(text) };
}
