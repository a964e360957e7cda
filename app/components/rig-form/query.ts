import type { Units } from "@/lib/measure";
import { loadsOf, needOf, NONE, outlineOf, plugs } from "./outline";
import { countFields, isAsShown, nightInputs, withUnit, type Field } from "./fields";
import { list, one, typed, type Params } from "./params";
import type { Start } from "./start";
import type { Rig } from "@/lib/rig";

/** The address' own words for a rig: where it starts, and what differs from there. Dates asked about go along as typed. */
export function queryOf(params: Params, start: Start, units: Units, fields: readonly Field[], sized: Rig): string {
  const query = new URLSearchParams(start.query);
  addLengths(query, params, start, units, fields);
  addParts(query, params, sized);
  addHookups(query, params, sized);
  addParty(query, params, sized);
  for (const name of nightInputs) if (typed(params[name]) !== undefined) query.set(name, typed(params[name])!);
  return query.toString();
}

/** Typed numbers without a unit are written with the one they meant, so that the link means the same in other units. */
function addLengths(query: URLSearchParams, params: Params, { kind }: Start, units: Units, fields: readonly Field[]): void {
  for (const asked of fields) {
    const text = typed(params[asked.input]);
    // What a kept rig is known to be needs no telling; a typical number that was typed is a measured one from then on.
    if (text === undefined || (kind === null && asked.untold !== true && isAsShown(text, asked, units))) continue;
    query.set(asked.input, withUnit(text, asked, units));
  }
}

function addParts(query: URLSearchParams, params: Params, sized: Rig): void {
  const { parts } = outlineOf(sized, params), usual = outlineOf(sized, { part: params.part }).parts;
  for (const text of list(params.part)) if (parts.some(({ part, added }) => added && text.startsWith(`${part.id}@`)) && !query.getAll("part").includes(text)) query.append("part", text);
  for (const { part, need } of parts) {
    if (need !== usual.find((u) => u.part.id === part.id)?.need) query.set(`part-${part.id}`, need);
  }
}

function addHookups(query: URLSearchParams, params: Params, sized: Rig): void {
  const { inlets, rig } = outlineOf(sized, params), usual = outlineOf(sized, {});
  for (const { key, inlet } of inlets) {
    const known = usual.inlets.find((i) => i.key === key)?.inlet;
    if (inlet?.side !== known?.side) query.set(`inlet-${key}.side`, inlet?.side ?? NONE);
  }
  addList(query, "want", rig.wants, usual.rig.wants, params.want);
  addList(query, "adapter", rig.gear.adapters, usual.rig.gear.adapters, params.adapter);
  if (rig.gear.regulator !== sized.gear.regulator) query.set("regulator", rig.gear.regulator ? "1" : "0");
  const plug = one(params.plug), now = plug === NONE ? NONE : plugs.find((p) => String(p) === plug);
  if (now !== undefined && now !== (sized.electric?.plug ?? NONE)) query.set("plug", String(now));
  for (const { id, need } of loadsOf(sized)) {
    const asked = needOf(one(params[`load-${id}`]), need);
    if (asked !== need) query.set(`load-${id}`, asked);
  }
}

/** The same without the dates: a rig is kept and remembered for other nights than these. */
export function withoutNights(query: string): string {
  const rest = new URLSearchParams(query);
  for (const name of nightInputs) rest.delete(name);
  return rest.toString();
}

function addParty(query: URLSearchParams, params: Params, sized: Rig): void {
  for (const name of countFields) {
    const text = typed(params[name])?.trim();
    if (text !== undefined && text !== String(sized.party[name])) query.set(name, text);
  }
  const { rig } = outlineOf(sized, params);
  const stays = rig.tow?.stays ?? NONE;
  if (stays !== (sized.tow?.stays ?? NONE)) query.set("tow", stays);
  if (rig.party.accessible !== sized.party.accessible) query.set("accessible", rig.party.accessible ? "1" : "0");
  addList(query, "wish", rig.wishes, sized.wishes, params.wish);
}

/** A list that was asked about and differs: its entries, or the word for none of them. */
function addList(query: URLSearchParams, name: string, now: readonly string[], usual: readonly string[], asked: Params[string]): void {
  if (asked === undefined || (now.length === usual.length && now.every((entry) => usual.includes(entry)))) return;
  for (const entry of now.length > 0 ? now : [NONE]) query.append(name, entry);
}
