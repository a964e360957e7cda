import { describe, expect, it } from "vitest";
import { asDate, type CancellationStep } from "@/lib/stays";
import { guestStay } from "@/lib/wording/en/guest-stay";

const steps: CancellationStep[] = [
  { daysBefore: 0, keep: { kind: "share", basisPoints: 10_000 } },
  { daysBefore: 14, keep: { kind: "amount", amount: 1000 } },
  { daysBefore: 3, keep: { kind: "nights", nights: 1 } },
];
const on = (today: string) => guestStay.terms(steps, asDate("2026-12-05"), "USD", asDate(today));

describe("what canceling costs, told by date", () => {
  it("begins with the earliest that can still be met, its own day included", () => {
    expect(on("2026-11-21")).toEqual(["Cancel by Sat, Nov 21, 2026: the park keeps $10.00.", "By Wed, Dec 2, 2026: the park keeps the price of 1 night.", "After that: the park keeps the whole price."]);
  });

  it("tells no date that is over", () => {
    expect(on("2026-11-22")).toEqual(["Cancel by Wed, Dec 2, 2026: the park keeps the price of 1 night.", "After that: the park keeps the whole price."]);
    expect(on("2026-12-03")).toEqual(["If you cancel: the park keeps the whole price."]);
    expect(on("2026-12-06")).toEqual(["If you cancel: the park keeps the whole price."]);
  });
});
