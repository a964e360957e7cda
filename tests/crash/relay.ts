import { createServer, connect, type Socket } from "node:net";

/**
 * A fixed address in front of a database server that comes back on another port: to the application it is one server
 * that was away for a while. It passes on every byte, and ends both sides when either ends.
 */
export interface Relay {
  /** `url` by way of this address. */
  readonly address: (url: string) => string;
  /** Where connections go from now on. */
  readonly leadTo: (url: string) => void;
  readonly close: () => Promise<void>;
}

export async function openRelay(): Promise<Relay> {
  let target = 0;
  const open = new Set<Socket>();
  const server = createServer((near) => {
    const far = connect(target, "127.0.0.1");
    for (const [one, other] of [[near, far], [far, near]] as const) {
      open.add(one);
      one.setNoDelay(true);
      one.on("error", () => other.destroy());
      one.on("close", () => { open.delete(one); other.destroy(); });
      one.pipe(other);
    }
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as { port: number };
  return {
    address: (url) => { const own = new URL(url); own.port = String(port); return own.href; },
    leadTo: (url) => { target = Number(new URL(url).port); },
    close: () => { for (const socket of open) socket.destroy(); return new Promise((done) => server.close(() => done())); },
  };
}
