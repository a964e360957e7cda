import { environment } from "@/lib/store/environment";

/** Where this application is, for links that are handed on: the address that is set for it, else as whoever asks reached it. */
export function linkBase(sent: Headers): string {
  return environment().PADWRIGHT_URL ?? `${sent.get("x-padwright-proto") === "https" ? "https" : "http"}://${sent.get("host") ?? "localhost"}`;
}
