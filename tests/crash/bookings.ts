import { ask, day, park } from "../store/stays-requests";

/** What a client was told of one booking; 0 where the connection broke before any answer came. */
export interface Told {
  readonly night: number;
  readonly key: string;
  readonly status: number;
  readonly id: string | null;
  readonly token: string | null;
  readonly free: readonly string[] | null;
  readonly retryAfter: string | null;
}

/** Asks the application at `address` for one night, so many days away, as a guest's program does: with a key, so that asking again is safe. */
export async function book(address: string, night: number, key: string): Promise<Told> {
  const { site, rig, guest } = ask(night, 1);
  const body = JSON.stringify({ park, arrive: day(night), depart: day(night + 1), site, rig, guest });
  const none = { night, key, id: null, token: null, free: null, retryAfter: null };
  try {
    const answer = await fetch(`${address}/api/stays`, { method: "POST", headers: { "Content-Type": "application/json", "Idempotency-Key": key }, body });
    const said = (await answer.json()) as { stay?: { id: string }; link?: { token: string }; free?: string[] };
    return { ...none, status: answer.status, id: said.stay?.id ?? null, token: said.link?.token ?? null, free: said.free ?? null, retryAfter: answer.headers.get("retry-after") };
  } catch {
    return { ...none, status: 0 };
  }
}

/** One night after another from `first` on, eight clients at a time; `told` is called with each answer as it comes. */
export async function bookInARow(address: string, first: number, nights: number, told: (answer: Told) => void): Promise<void> {
  let next = first;
  await Promise.all(Array.from({ length: clients }, async () => {
    while (next < first + nights) {
      const night = next++;
      told(await book(address, night, `night-${night}`));
    }
  }));
}

/** How many requests are under way at a time: as many may have been answered by nobody when something is killed. */
export const clients = 8;

export const accepted = ({ status }: Told) => status === 201 || status === 200;
