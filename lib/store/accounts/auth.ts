import { randomBytes } from "node:crypto";
import { prismaAdapter } from "better-auth/adapters/prisma";
import { APIError, createAuthMiddleware } from "better-auth/api";
import { betterAuth } from "better-auth/minimal";
import { client } from "../client";
import { environment } from "../environment";
import { inStore } from "../errors";
import { log } from "../log";
import { hashToken } from "../stays-actor";
import { perAccount, perAddress, takeTry } from "./limits";

/** Somebody who does nothing for so long is signed out; so is everybody after `absolute`. Seconds. */
export const sessionEnds = { idle: 12 * 3600, absolute: 7 * 24 * 3600 };
export const passwordLengths = { min: 12, max: 128 };
export const sessionCookie = "padwright-session";
/** Names no machine: the library is asked inside this process alone, none of its addresses is served. */
export const inside = "http://padwright.internal";
/** The one header that says where a request came from: nobody outside can write it. */
export const addressHeader = "x-padwright-client";

type Auth = ReturnType<typeof makeAuth>;
const kept = globalThis as typeof globalThis & { padwrightAuth?: Promise<Auth> };

/** Sign-in, sessions and their cookie, by the library. Made when first asked for: its secret is in the database. */
export function auth(): Promise<Auth> {
  kept.padwrightAuth ??= readSecret().then(makeAuth).catch((error: unknown) => {
    delete kept.padwrightAuth;
    throw error;
  });
  return kept.padwrightAuth;
}

/** How the tries for one address of mail are counted, whether an account has it or not. */
export function accountKey(email: string): string {
  return `account ${hashToken(email.trim().toLowerCase())}`;
}

function makeAuth(secret: string) {
  return betterAuth({
    appName: "Padwright",
    baseURL: inside,
    secret,
    telemetry: { enabled: false },
    database: prismaAdapter(client(), { provider: "postgresql" }),
    user: { modelName: "staffAccount" },
    account: { modelName: "staffCredential", fields: { userId: "accountId", accountId: "subject", providerId: "provider", password: "passwordHash" } },
    session: { modelName: "staffSession", fields: { userId: "accountId" }, additionalFields: { parkId: { type: "string", required: false, input: false } }, expiresIn: sessionEnds.idle, disableSessionRefresh: true },
    // Accounts are made by a link alone.
    emailAndPassword: { enabled: true, disableSignUp: true, minPasswordLength: passwordLengths.min, maxPasswordLength: passwordLengths.max },
    rateLimit: { enabled: true, customRules: { "/sign-in/email": perAddress }, customStorage: { consume: countByAddress } as never },
    hooks: { before: limitByAccount() },
    databaseHooks: { session: { create: { before: placeSession } } },
    advanced: {
      cookies: { session_token: { name: sessionCookie } },
      // The tables hold what we use and no more.
      database: { generateId: "uuid", validateSchema: false },
      ipAddress: { ipAddressHeaders: [addressHeader] },
    },
    // Its only way to say that an account is switched off is that no session was made.
    logger: { log: (level, message) => { if (level === "error" && message !== "Failed to create session") log.error({ from: "sign-in" }, message); } },
  });
}

/** The library's own counting begins anew with each try, so that an office would never be let in again. */
async function countByAddress(key: string, rule: { max: number; window: number }): Promise<{ allowed: boolean; retryAfter: number | null }> {
  const { allowed, until } = await takeTry(`address ${key}`, rule);
  return { allowed, retryAfter: allowed ? null : Math.max(1, Math.ceil((until.getTime() - Date.now()) / 1000)) };
}

/** Before every sign-in, however it is asked for: the library limits by address of the network only. */
function limitByAccount() {
  return createAuthMiddleware(async ({ path, body }) => {
    if (path !== "/sign-in/email") return;
    const { email } = body as { email?: unknown };
    const { allowed, until } = await takeTry(accountKey(String(email)), perAccount);
    if (!allowed) throw new APIError("TOO_MANY_REQUESTS", { until: until.toISOString() });
  });
}

/** A session is of its account's park; one that is switched off gets none. */
async function placeSession({ userId }: { readonly userId: string }): Promise<false | { data: { parkId: string } }> {
  const account = await client().staffAccount.findUnique({ where: { id: userId }, select: { switchedOffAt: true, parkId: true } });
  return account !== null && account.switchedOffAt === null && { data: { parkId: account.parkId } };
}

/** The one that was set, else one made once and kept where every process on this database finds it. */
async function readSecret(): Promise<string> {
  const { PADWRIGHT_SECRET } = environment();
  if (PADWRIGHT_SECRET) return PADWRIGHT_SECRET;
  const name = "session-cookies";
  return inStore(async () => {
    await client().$executeRaw`insert into secret (name, value) values (${name}, ${randomBytes(32).toString("base64url")}) on conflict do nothing`;
    return (await client().secret.findUniqueOrThrow({ where: { name } })).value;
  });
}
