import { SMTPServer } from "smtp-server";

export interface Delivered {
  readonly from: string;
  readonly to: readonly string[];
  /** The message as it came over the wire. */
  readonly raw: string;
}

/** A mail server on this machine that keeps what it takes. What it refuses a recipient with is told by `refuse`. */
export async function openMailServer() {
  const delivered: Delivered[] = [];
  let refusing: { readonly code: number; readonly message: string } | null = null;
  let onTaken: (() => void) | null = null;
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ["STARTTLS", "AUTH"],
    onRcptTo: (_address, _session, done) => done(refusing && Object.assign(new Error(refusing.message), { responseCode: refusing.code })),
    onData: (stream, session, done) => {
      const parts: Buffer[] = [];
      stream.on("data", (part: Buffer) => parts.push(part));
      stream.on("end", () => {
        const { mailFrom, rcptTo } = session.envelope;
        delivered.push({ from: mailFrom ? mailFrom.address : "", to: rcptTo.map(({ address }) => address), raw: Buffer.concat(parts).toString("utf8") });
        onTaken?.();
        done();
      });
    },
  });
  server.on("error", () => undefined);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.server.address() as { port: number };
  return {
    url: `smtp://127.0.0.1:${port}`,
    delivered,
    refuse: (code: number | null, message = "not now") => { refusing = code === null ? null : { code, message }; },
    whenTaken: (work: () => void) => { onTaken = work; },
    close: () => new Promise<void>((resolve) => server.close(resolve)),
  };
}

/** The text of a message, its transfer encoding undone. */
export function textOf({ raw }: Delivered): string {
  const [head = "", ...rest] = raw.split("\r\n\r\n");
  const body = rest.join("\r\n\r\n");
  if (/^Content-Transfer-Encoding: base64/im.test(head)) return Buffer.from(body, "base64").toString("utf8").replaceAll("\r\n", "\n");
  if (!/^Content-Transfer-Encoding: quoted-printable/im.test(head)) return body.replaceAll("\r\n", "\n");
  const bytes = body.replace(/=\r\n/g, "").replace(/=([0-9A-F]{2})/g, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));
  return Buffer.from(bytes, "latin1").toString("utf8").replaceAll("\r\n", "\n");
}

/** The lines of a message's head by name, folded lines put together. */
export function headOf({ raw }: Delivered): Map<string, string> {
  const head = raw.split("\r\n\r\n")[0]!.replace(/\r\n[ \t]+/g, " ");
  return new Map(head.split("\r\n").map((line) => [line.slice(0, line.indexOf(":")).toLowerCase(), line.slice(line.indexOf(":") + 2)]));
}
