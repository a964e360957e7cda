/** How fresh a page of the desk is. Goes to the browser: imports nothing. */
export const live = {
  starting: "Connecting …",
  live: "Live",
  reading: "Reading anew …",
  lost: (at: string) => `Connection lost: this is how it stood at ${at}. Do not rely on it.`,
  signedOut: "You are signed out. Sign in again to go on.",
  signIn: "Sign in",
} as const;
