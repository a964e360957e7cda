import { cookies, headers } from "next/headers";
import { sessionCookie, sessionEnds } from "@/lib/store/accounts/auth";
import { signIn, type Client, type SignInOutcome } from "@/lib/store/accounts/sessions";

/** Signs in and gives the browser its cookie. In server actions only: nowhere else can one be set. */
export async function signInHere(email: string, password: string): Promise<SignInOutcome> {
  const outcome = await signIn(email, password, await clientOf());
  if (outcome.state === "in") {
    // Under https the browser never sends it any other way. Not readable by scripts, not sent along by other sites' forms.
    const secure = (await headers()).get("x-padwright-proto") === "https";
    (await cookies()).set(sessionCookie, outcome.cookie, { httpOnly: true, sameSite: "lax", secure, path: "/", maxAge: sessionEnds.absolute });
  }
  return outcome;
}

async function clientOf(): Promise<Client> {
  const sent = await headers();
  return { address: sent.get("x-padwright-client"), agent: sent.get("user-agent") };
}
