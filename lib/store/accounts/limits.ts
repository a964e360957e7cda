import { client } from "../client";
import { inStore } from "../errors";

/** So many tries, counted from the first, in so many seconds. */
export interface Limit {
  readonly max: number;
  readonly window: number;
}

/** From one address of the network, over all accounts: an office shares one. */
export const perAddress: Limit = { max: 300, window: 15 * 60 };
/** For one account, whoever tries and from where. */
export const perAccount: Limit = { max: 10, window: 15 * 60 };

export interface Taken {
  readonly allowed: boolean;
  /** When the window ends. */
  readonly until: Date;
}

/**
 * Counts one more try under `key` and says whether it is within the limit. One statement on the database's clock, so
 * that tries that come at once, over several processes, are counted one by one. What is refused is not counted.
 */
export async function takeTry(key: string, { max, window }: Limit): Promise<Taken> {
  const [row] = await inStore(() => client().$queryRaw<{ count: number; until: Date }[]>`
    insert into rate_limit as r (key, count, since) values (${key}, 1, clock_timestamp())
    on conflict (key) do update set
      count = case when r.since <= clock_timestamp() - make_interval(secs => ${window}) then 1 else least(r.count + 1, ${max + 1}) end,
      since = case when r.since <= clock_timestamp() - make_interval(secs => ${window}) then clock_timestamp() else r.since end
    returning count, since + make_interval(secs => ${window}) as until`);
  return { allowed: row!.count <= max, until: row!.until };
}

/** Forgets the tries under `key`, and those of others that are long past. */
export async function forgetTries(key: string): Promise<void> {
  await inStore(() => client().$executeRaw`delete from rate_limit where key = ${key} or since < clock_timestamp() - interval '1 day'`);
}
