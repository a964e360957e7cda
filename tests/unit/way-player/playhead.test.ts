import { describe, expect, it } from "vitest";
import { atStart, isOver, movePlayhead, saidAt, SPEEDS, type Move, type Playhead } from "@/app/components/way-player/playhead";
import { momentNear, rowAt, spreadOver, type Reel, type ReelLeg } from "@/app/components/way-player/reel";

/** A leg of so many meters with a moment at every one of them. */
function legOf(kind: ReelLeg["kind"], meters: number, stations: readonly number[]): ReelLeg {
  const at = Array.from({ length: meters + 1 }, (_, i) => i);
  return {
    kind, name: kind, length: meters * 1000, stations, end: `end of ${kind}`,
    rows: at.map((m) => [m * 1000, m, 10 * m, 100 - m, 90 + 3 * m]),
    near: at.map(() => [0, 0, 1, 1]), helpers: at.map(() => null), said: at.map((m) => `${kind} ${m}`), far: at.map((m) => `${m} m`),
  };
}

const through: Reel = { bodies: [], posts: [], legs: [legOf("in", 10, [0, 3, 7, 10]), legOf("out", 6, [0, 2, 6])] };
const back: Reel = { bodies: [], posts: [], legs: [legOf("back", 12, [0, 5, 12])] };
const ways = [through, back];
const after = (moves: readonly Move[], from: Playhead = atStart) => moves.reduce((at, move) => movePlayhead(ways, at, move), from);
const places = (moves: readonly Move[]) => moves.map((_, i) => { const { leg, along } = after(moves.slice(0, i + 1)); return [leg, along]; });

describe("which moment is shown", () => {
  it("is the row itself at its place, and a mean of two in between", () => {
    const leg = through.legs[0]!;
    expect(rowAt(leg, 4000)).toEqual([4000, 4, 40, 96, 102]);
    expect(rowAt(leg, 4250)).toEqual([4250, 4.25, 42.5, 95.75, 102.75]);
    expect([rowAt(leg, -5), rowAt(leg, 99_000)]).toEqual([leg.rows[0], leg.rows[10]]);
  });

  it("is told by the nearest row", () => {
    expect([0, 400, 600, 9499, 9501, 99_000].map((along) => momentNear(through.legs[0]!, along))).toEqual([0, 0, 1, 9, 10, 10]);
    expect(saidAt(ways, { ...atStart, leg: 1, along: 2600 })).toBe("out 3");
  });

  it("is spread over a leg with both ends, never the same one twice", () => {
    expect(spreadOver(through.legs[0]!, 4)).toEqual([0, 3, 7, 10]);
    expect(spreadOver(legOf("in", 1, [0, 1]), 5)).toEqual([0, 1]);
  });
});

describe("running", () => {
  it("rolls on by its speed, from leg to leg, says so at the end of each, and stops at the end of the last", () => {
    const second: Move = { do: "tick", ms: 1000 };
    const run = after([{ do: "speed", speed: "walk" }, { do: "run" }, second]);
    expect(run).toMatchObject({ running: true, fresh: false, leg: 0, along: SPEEDS.walk, told: "" });
    const next = after(Array.from({ length: 7 }, () => second), run);
    expect(next).toMatchObject({ running: true, leg: 1, along: 0, told: "end of in" });
    const over = after(Array.from({ length: 5 }, () => second), next);
    expect(over).toMatchObject({ running: false, leg: 1, along: 6000, told: "end of out" });
    expect(isOver(ways, over)).toBe(true);
    expect(after([{ do: "run" }], over)).toMatchObject({ running: true, leg: 0, along: 0, told: "" });
  });

  it("is stopped by the page being hidden, without a word, and time that goes by then moves nothing", () => {
    const hidden = after([{ do: "run" }, { do: "tick", ms: 500 }, { do: "hide" }, { do: "tick", ms: 5000 }]);
    expect(hidden).toMatchObject({ running: false, along: (SPEEDS.brisk * 500) / 1000, told: "" });
  });

  it("goes by stills alone where no motion is wanted: every station, leg by leg", () => {
    const still: Move = { do: "next-still" };
    expect(places([{ do: "run" }, still, still, still, still, still, still])).toEqual([[0, 0], [0, 3000], [0, 7000], [1, 0], [1, 2000], [1, 6000], [1, 6000]]);
    expect(after([{ do: "run" }, still, still, still, still, still])).toMatchObject({ running: false, told: "end of out" });
    expect(after([still])).toEqual(atStart);
  });
});

describe("stepping", () => {
  it("goes from station to station, over the end of a leg into the next one, and back the same way", () => {
    const on: Move = { do: "step-on" }, before: Move = { do: "step-back" };
    expect(places([on, on, on, on, on, on, on])).toEqual([[0, 3000], [0, 7000], [0, 10_000], [1, 0], [1, 2000], [1, 6000], [1, 6000]]);
    expect(places([{ do: "leg", leg: 1 }, on, before, before, before, before, before, before])).toEqual([[1, 0], [1, 2000], [1, 0], [0, 10_000], [0, 7000], [0, 3000], [0, 0], [0, 0]]);
  });

  it("stops what runs and tells where it stands; asked again it is told again", () => {
    const stepped = after([{ do: "run" }, { do: "tick", ms: 100 }, { do: "step-on" }]);
    expect(stepped).toMatchObject({ running: false, along: 3000, told: "in 3" });
    const again = after([{ do: "tell" }], stepped);
    expect([again.told.trim(), again.told === stepped.told]).toEqual(["in 3", false]);
  });

  it("finds the station next to any place that the slider was put to, and the slider keeps within the leg", () => {
    expect(after([{ do: "seek", along: 4321 }])).toMatchObject({ along: 4321, running: false, fresh: false });
    expect(places([{ do: "seek", along: 4321 }, { do: "step-back" }])[1]).toEqual([0, 3000]);
    expect([-9, 1e9].map((along) => after([{ do: "seek", along }]).along)).toEqual([0, 10_000]);
    // A slider's last step falls short of a length that is no multiple of it, and yet is the end.
    expect([9900, 9901].map((along) => after([{ do: "seek", along }]).along)).toEqual([9900, 10_000]);
  });

  it("goes leg by leg and to the ends of a leg, and never leaves the way", () => {
    expect(places([{ do: "next-leg" }, { do: "next-leg" }, { do: "end" }, { do: "begin" }, { do: "leg-before" }, { do: "leg-before" }])).toEqual([[1, 0], [1, 0], [1, 6000], [1, 0], [0, 0], [0, 0]]);
  });

  it("begins anew on the other way, as one still again only if nothing was moved", () => {
    expect(after([{ do: "way", way: 1 }])).toMatchObject({ way: 1, leg: 0, along: 0, fresh: true });
    expect(after([{ do: "leg", leg: 1 }, { do: "way", way: 7 }])).toMatchObject({ way: 1, leg: 0, along: 0, fresh: false });
  });
});
