/** Called once by the server as it starts, never by a build: what happens by itself begins here. */
export async function register(): Promise<void> {
  // Read by its name, so that the bundler leaves all of it out where there is no Node.
  if (process.env.NEXT_RUNTIME === "nodejs") {
    const { startChores } = await import("./lib/jobs/chores");
    startChores();
  }
}
