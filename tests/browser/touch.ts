import type { CDPSession, Locator, Page } from "@playwright/test";

/** A place on the glass, pixels. */
export type Spot = readonly [number, number];

/** Fingers on a page, as a browser reports them. */
export class Fingers {
  private constructor(private readonly session: CDPSession) {}

  static async on(page: Page): Promise<Fingers> {
    return new Fingers(await page.context().newCDPSession(page));
  }

  /** From where they come down, one after the other, to where they are lifted, in small steps and all at the same time. */
  async draw(...ways: readonly (readonly [from: Spot, to: Spot])[]): Promise<void> {
    const at = (share: number) => ways.map(([from, to]): Spot => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]);
    for (let n = 1; n <= ways.length; n++) await this.send("touchStart", at(0).slice(0, n));
    for (let i = 1; i <= 8; i++) await this.send("touchMove", at(i / 8));
    for (let n = ways.length - 1; n >= 0; n--) await this.send("touchEnd", at(1).slice(0, n));
  }

  /** One event of its own, with where all fingers are that are on the glass then. */
  async send(type: "touchStart" | "touchMove" | "touchEnd", spots: readonly Spot[]): Promise<void> {
    await this.session.send("Input.dispatchTouchEvent", { type, touchPoints: spots.map(([x, y], id) => ({ id, x, y })) });
  }
}

/** The middle of what is drawn. */
export async function middleOf(one: Locator): Promise<Spot> {
  const { x, y, width, height } = (await one.boundingBox())!;
  return [x + width / 2, y + height / 2];
}

export function far([ax, ay]: Spot, [bx, by]: Spot): number {
  return Math.hypot(bx - ax, by - ay);
}
