import { Envelope } from "@/lib/plane";
import { maximise, type Domain, type Found, type SearchResult } from "@/lib/search";
import { constraintsOf, inForce, leanElements, leastOf, type Constraint, type ConstraintSet, type Setting } from "./constraints";
import { facing } from "./frames";
import { envelopeLandscape, placingLandscape, runLandscape, type Demands, type Workspace } from "./landscapes";
import { needsOf, type Need, type With } from "./needs";
import type { Heading } from "./types";
import { placesInLine, type InLine } from "./vehicle";

/** The bounds that `best` and the pose are searched to, mm. Fixed by the meaning of a fit, not by a park's policy. */
export const GAP = 5;
const PLACING_GAP = 2;
const RUN_GAP = 2;
const FINEST = 0.2;
/** Poses are told apart to this, or to the touch where that is finer: where two reaches just meet, a little of pose is much room, mm. */
const SETTLED = 1;
/** How far outside the pad poses are still looked at, so that a near miss can be told from a hopeless one, mm. */
const MARGIN = 250;

/** One rig on one site at one heading: its constraints, needs and searches. */
export class Approach {
  readonly set: ConstraintSet;
  readonly needs: readonly Need[];
  readonly domain: Domain;
  /** No pose outside the domain has more room than this: some support is off the pad by as much. */
  private readonly boundOutside: number;
  private searched: SearchResult | null = null;
  private readonly envelopes = new Map<string, Envelope>();

  constructor(readonly setting: Setting, readonly heading: Heading, private readonly work: Workspace, private readonly budget: number) {
    const spans = spansOf(setting, heading);
    this.domain = { minX: spans.x.low - MARGIN, maxX: spans.x.high + MARGIN, minY: spans.y.low - MARGIN, maxY: spans.y.high + MARGIN };
    this.set = constraintsOf(setting, heading, this.domain);
    this.needs = needsOf(setting.terrain, setting.form, setting.policy, heading);
    this.boundOutside = -Math.max(MARGIN, spans.x.excess / 2, spans.y.excess / 2);
  }

  constraints(nice: ReadonlySet<string>): Constraint[] {
    return inForce(this.set, this.setting.form, nice);
  }

  envelope(nice: ReadonlySet<string>): Envelope {
    const key = [...nice].join("\n");
    let envelope = this.envelopes.get(key);
    if (!envelope) {
      envelope = new Envelope(leanElements(this.constraints(nice)));
      this.envelopes.set(key, envelope);
    }
    return envelope;
  }

  /** The most room the hard constraints of the must parts allow, whatever needs say. Searched once. */
  get best(): SearchResult {
    this.searched ??= this.searchBest();
    return this.searched;
  }

  private searchBest(): SearchResult {
    const search = maximise(this.domain, envelopeLandscape(this.envelope(new Set()), this.work, Infinity), { gap: GAP - 1, resolution: FINEST, budget: this.budget });
    return { ...search, bound: Math.max(search.bound, this.boundOutside) };
  }

  /** Whether some pose holds as far as the hard constraints of the must parts go, or at least within touch. */
  get standable(): boolean {
    const { best, bound } = this.best;
    return bound >= 0 || (best !== null && best.value >= -this.setting.policy.touch);
  }

  /**
   * The pose with the most room up to `comfort` that meets all demands; with a `target`, any that reaches it. `hints`
   * are positions that may well do.
   */
  place(by: With, nice: ReadonlySet<string>, hints: readonly Found[], target?: number): SearchResult {
    const landscape = placingLandscape(this.envelope(nice), this.work, this.setting.policy.comfort, this.demands(by, nice), hints);
    return maximise(this.domain, landscape, { gap: PLACING_GAP, resolution: this.settleAt, target, budget: this.budget });
  }

  /** The shortest run among poses with at least `level` of room. `known` is one of them. */
  shortestRun(by: With, nice: ReadonlySet<string>, level: number, known: readonly [number, number]): SearchResult {
    const landscape = runLandscape(this.envelope(nice), this.work, level, this.demands(by, nice), known);
    return maximise(this.domain, landscape, { gap: RUN_GAP, resolution: FINEST, budget: this.budget });
  }

  private demands(by: With, nice: ReadonlySet<string>): Demands {
    const { policy } = this.setting;
    const inLine = policy.overflow || this.setting.stall !== null ? [] : this.inLine(nice).map((place) => new Envelope(place.elements));
    return { needs: this.needs, by, inLine, touch: policy.touch };
  }

  /** Whether a vehicle that stays on the site has room in line with the rig at a position. */
  inLineHolds(nice: ReadonlySet<string>, x: number, y: number, tolerance: number): boolean {
    return this.inLine(nice).some(({ elements }) => new Envelope(elements).valueAt(x, y) >= -tolerance);
  }

  /** The places in line with the rig and what is out. */
  inLine(nice: ReadonlySet<string>): InLine[] {
    return placesInLine(this.setting, this.heading, this.setting.form.boxes.filter((b) => b.need === "must" || nice.has(b.id)));
  }

  /** The constraint with the least slack at a position. */
  tightest(nice: ReadonlySet<string>, x: number, y: number): { constraint: Constraint; slack: number } {
    let tightest: { constraint: Constraint; slack: number } | null = null;
    for (const constraint of this.constraints(nice)) {
      const slack = leastOf(constraint.elements, x, y); // what is covered is no less where all are in force
      if (tightest === null || slack < tightest.slack) tightest = { constraint, slack };
    }
    return tightest!;
  }

  private get settleAt(): number {
    return Math.max(Math.min(this.setting.policy.touch, SETTLED), FINEST);
  }
}

interface Span {
  readonly low: number;
  readonly high: number;
  /** By how much the supports and their footing outreach the pad, mm; 0 where they do not. */
  readonly excess: number;
}

/** The positions from which all supports could stand within the pad's bounds, or between those from which each end just would. */
function spansOf({ terrain: { pad: { bounds } }, form, policy }: Setting, heading: Heading): { x: Span; y: Span } {
  const s = facing(heading);
  const xs = form.rig.supports.map(({ at }) => s * at[0]), ys = form.rig.supports.map(({ at }) => s * at[1]);
  return { x: spanOf(bounds.minX, bounds.maxX, xs, policy.footing), y: spanOf(bounds.minY, bounds.maxY, ys, policy.footing) };
}

function spanOf(min: number, max: number, offsets: readonly number[], footing: number): Span {
  const a = min + footing - Math.min(...offsets), b = max - footing - Math.max(...offsets);
  return { low: Math.min(a, b), high: Math.max(a, b), excess: Math.max(0, a - b) };
}
