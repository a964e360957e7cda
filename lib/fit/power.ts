import type { Hookup } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Policy } from "./policy";
import type { PowerResult } from "./types";

export interface PowerOption {
  readonly result: PowerResult;
  /** Needs an adapter the guest does not have. */
  readonly bringAdapter: boolean;
  /** What the must loads exceed the usable supply by, VA; 0 where they run. */
  readonly overload: number;
}

/**
 * Every way the plug goes into a receptacle of this hookup, directly or through one adapter, and what then runs.
 * Through an adapter the smaller rating and its legs count.
 */
export function powerOptions(rig: Rig, hookup: Hookup, policy: Policy): PowerOption[] {
  const { electric, gear } = rig;
  if (!electric) return [];
  return [...new Set(hookup.receptacles ?? [])].map((receptacle) => {
    const through = receptacle === electric.plug ? null : `${electric.plug}-to-${receptacle}`;
    const rating = Math.min(receptacle, electric.plug);
    const supplyVa = rating * (hookup.volts ?? NOMINAL_VOLTS) * legsOf(rating);
    const usableVa = policy.continuous * supplyVa;
    const { runs, shed, overload } = share(electric.loads, usableVa);
    return {
      result: { receptacle, through, supplyVa, usableVa, runs, shed },
      bringAdapter: through !== null && !gear.adapters.includes(through),
      overload,
    };
  });
}

/** The option that serves best: the loads it runs, then the supply, then without an adapter. */
export function bestOption(options: readonly PowerOption[]): PowerOption | null {
  const order = (a: PowerOption, b: PowerOption) =>
    b.result.runs.length - a.result.runs.length || b.result.usableVa - a.result.usableVa || Number(a.result.through !== null) - Number(b.result.through !== null);
  return [...options].sort(order)[0] ?? null;
}

const NOMINAL_VOLTS = 120;

/** A 50 A service has two legs of 120 V, every other one (NEC 551.44). */
function legsOf(rating: number): number {
  return rating === 50 ? 2 : 1;
}

/** Must loads first, then the nice ones in listed order as far as the supply goes. */
function share(loads: NonNullable<Rig["electric"]>["loads"], usableVa: number): { runs: string[]; shed: string[]; overload: number } {
  const must = loads.filter((l) => l.need === "must");
  let used = must.reduce((sum, l) => sum + l.va, 0);
  const overload = Math.max(0, used - usableVa);
  const runs = must.map((l) => l.id), shed: string[] = [];
  for (const load of loads) {
    if (load.need === "must") continue;
    if (used + load.va <= usableVa) {
      used += load.va;
      runs.push(load.id);
    } else shed.push(load.id);
  }
  return { runs, shed, overload };
}
