import type { Hookup, Obstacle } from "@/lib/park";
import type { Draft } from "@/lib/park/edit/record";
import { readAt } from "@/lib/park/edit/record";
import type { Thing } from "@/lib/park/edit/things";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { things as thingWords } from "@/lib/wording/en/things";

/** What a thing is called in the list and when it is spoken of: "Oak", "Power pedestal", "Driveable ground 2". */
export function nameOf(draft: Draft, thing: Thing): string {
  const item = readAt(draft, thing.path) as { id?: string; kind?: string } | undefined;
  switch (thing.kind) {
    case "obstacle": {
      const obstacle = { ...item, id: item?.id || words.kinds.obstacle, kind: item?.kind || words.kinds.obstacle } as unknown as Obstacle;
      return capital(thingWords.full({ type: "obstacle", obstacle, alone: alone(draft.obstacles, item?.kind) }));
    }
    case "hookup": return capital(thingWords.full({ type: "hookup", hookup: item as unknown as Hookup, alone: alone(draft.hookups, item?.kind) }));
    case "stall": return capital(thingWords.full({ type: "stall", id: item?.id ?? "", alone: draft.parking?.length === 1 }));
    case "height-limit": return words.limit(item?.kind || words.kinds["height-limit"], item?.id ?? "");
    case "driveable": return (draft.approach?.driveable?.length ?? 0) > 1 ? words.numbered(words.kinds.driveable, Number(thing.path.at(-1))) : words.kinds.driveable;
    default: return words.kinds[thing.kind];
  }
}

/** As short as it stands on the plan. */
export function labelOf(draft: Draft, thing: Thing): string {
  const item = readAt(draft, thing.path) as { id?: string; kind?: string } | undefined;
  if (thing.kind === "obstacle") return thingWords.label({ type: "obstacle", obstacle: { ...item, id: item?.id ?? "", kind: item?.kind ?? "" } as unknown as Obstacle, alone: true });
  if (thing.kind === "hookup") return thingWords.label({ type: "hookup", hookup: item as unknown as Hookup, alone: true });
  return thing.kind === "stall" ? thingWords.label({ type: "stall", id: "", alone: true }) : nameOf(draft, thing).toLowerCase();
}

function alone(list: readonly ({ readonly kind?: string } | null)[] | null | undefined, kind: string | undefined): boolean {
  return (list ?? []).filter((other) => other?.kind === kind).length === 1;
}

function capital(name: string): string {
  const plain = name.replace(/^the /, "");
  return plain.charAt(0).toUpperCase() + plain.slice(1);
}
