/** Called once by the server as it starts, never by a build: what happens by itself begins here. */
export async function register(): Promise<void> {
  if (process.env["NEXT_RUNTIME"] !== "nodejs") return;
  const { startChores } = await import("./lib/jobs/chores");
  startChores();
}
