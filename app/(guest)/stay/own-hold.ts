import { cookies, headers } from "next/headers";
import { overlaps, type Nights } from "@/lib/stays";
import { getStay } from "@/lib/store/stays-change";
import { findByLink } from "@/lib/store/stays-links";

/** Which stay this browser holds at the moment, so that who goes back to the site finds the way on and is not told that it is taken. */
const holdCookie = "padwright-hold";

/** Remembers the hold in this browser for as long as it lasts. In server actions only. */
export async function rememberHold(token: string, minutes: number): Promise<void> {
  const secure = (await headers()).get("x-padwright-proto") === "https";
  (await cookies()).set(holdCookie, token, { httpOnly: true, sameSite: "lax", secure, path: "/sites", maxAge: minutes * 60 });
}

/** The token of the hold that this browser has on the site for one of the nights; null where it has none. */
export async function findOwnHold(siteId: string, nights: Nights): Promise<string | null> {
  const token = (await cookies()).get(holdCookie)?.value;
  const found = token ? await findByLink(token) : null;
  if (!token || !found) return null;
  const stay = await getStay({ kind: "guest", link: token }, found.park, found.stay);
  return stay.state === "held" && stay.site === siteId && overlaps(stay.nights, nights) ? token : null;
}
