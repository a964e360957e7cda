import { describe, expect, it } from "vitest";
import { outcomeOf } from "@/app/manage/survey/[id]/outcome";

describe("what becomes of steps that were sent", () => {
  it("is kept and sent again, unless the office says otherwise of them", () => {
    for (const status of [0, 204, 302, 400, 408, 409, 429, 500, 502, 503, 504]) for (const steps of [1, 40]) expect(outcomeOf(status, steps), `${status}`).toBe("waiting");
  });

  it("is sent fewer at a time where they are too many or one of them is none, until it is plain which", () => {
    expect([outcomeOf(413, 40), outcomeOf(413, 2), outcomeOf(413, 1)]).toEqual(["fewer", "fewer", "waiting"]);
    expect([outcomeOf(422, 40), outcomeOf(422, 2), outcomeOf(422, 1)]).toEqual(["fewer", "fewer", "refused"]);
  });

  it("is taken, or waits for somebody to sign in, or has no site any more", () => {
    expect([200, 401, 403, 404].map((status) => outcomeOf(status, 3))).toEqual(["taken", "signed-out", "signed-out", "gone"]);
  });
});
