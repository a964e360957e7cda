/** Something the person at the keyboard can put right: the message is one line that says what to do. */
export class Fault extends Error {
  name = "Fault";
}

/** The person stopped the command. */
export class Interrupted extends Error {
  name = "Interrupted";
}

const causes = [
  [/ENOSPC|no space left on device/i, "the disk is full. Free some space and run the command again; nothing was lost."],
  [/EDQUOT|disk quota exceeded/i, "the disk quota is used up. Free some space and run the command again; nothing was lost."],
  [/\bEROFS\b|read-only file system/i, "the disk is read-only. Use a clone on a disk that can be written."],
  [/\b(EACCES|EPERM)\b|permission denied/i, "some of its files belong to another user. Run the command as that user, or use a clone of your own."],
  [/ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ETIMEDOUT|ENETUNREACH|network request .* failed|ERR_SOCKET_TIMEOUT/, "the package registry cannot be reached. Check the network (and npm's proxy settings) and run the command again."],
  [/EUSAGE|can only install packages when your package.json and package-lock.json/i, "package.json and package-lock.json disagree. Run `npm install` and commit the lockfile."],
  [/heap out of memory|ENOMEM|\bSIGKILL\b/i, "the machine ran out of memory. Close something and run the command again."],
];

/** A Fault that says why `what` did not work, going by the text of the failure; null where the text tells nothing known. */
export function explain(what, text) {
  const cause = causes.find(([pattern]) => pattern.test(text));
  return cause ? new Fault(`${what}: ${cause[1]}`) : null;
}

/** The one line for an error, with the stack only for what nobody foresaw. */
export function lineOf(error) {
  if (error?.name === "Fault" || error?.name === "ParkFaults") return error.message;
  const known = explain("Padwright could not go on", `${error?.code ?? ""} ${error?.message ?? error}`);
  return known?.message ?? error?.stack ?? String(error);
}
