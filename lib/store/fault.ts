/** Something the person who runs Padwright can put right: the message is one line that says what to do. */
export class Fault extends Error {
  override readonly name = "Fault";
}

const advice: Record<string, (where: string) => string> = {
  ENOSPC: (where) => fullDisk(where).message,
  EDQUOT: (where) => `The disk quota for ${where} is used up. Free some space and start again; nothing was lost.`,
  EROFS: (where) => `${where} lies on a read-only disk. Set PADWRIGHT_DATA to a folder that can be written.`,
  EACCES: (where) =>
    `${where} cannot be used: it belongs to another user. Start Padwright as that user, or set PADWRIGHT_DATA to a folder of your own.`,
  EPERM: (where) =>
    `${where} cannot be used: it belongs to another user. Start Padwright as that user, or set PADWRIGHT_DATA to a folder of your own.`,
  ENOTDIR: (where) => `${where} is not a folder. Set PADWRIGHT_DATA to a folder.`,
};

/** The disk that holds `where` has no room left. */
export function fullDisk(where: string): Fault {
  return new Fault(`The disk that holds ${where} is full. Free some space and start again; nothing was lost.`);
}

/** Turns what the operating system refused into a Fault; anything it does not know comes back as it was. */
export function explainSystemError(error: unknown, where: string): unknown {
  if (error instanceof Fault || !(error instanceof Error)) return error;
  const code = "code" in error && typeof error.code === "string" ? error.code : "";
  const say = advice[code] ?? (/no space left on device/i.test(error.message) ? advice["ENOSPC"] : undefined);
  return say ? new Fault(say(where), { cause: error }) : error;
}
