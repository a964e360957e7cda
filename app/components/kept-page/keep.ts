/** After this it is told that the page is not kept, ms: whoever waits for it at the gate should know. A later answer is told as well. */
const PATIENCE = 30_000;

/** When the page that is shown was kept, where it comes from the device and not over the network; null where it does not. */
export function keptAt({ head }: Document): Date | null {
  const at = Date.parse(head.querySelector<HTMLMetaElement>('meta[name="kept-at"]')?.content ?? "");
  return Number.isNaN(at) ? null : new Date(at);
}

/** Has the page kept on the device, and tells whether it is. No browser keeps pages that came over an open connection. */
export async function askToKeep({ navigator, location, performance }: Window, folder: string, tell: (kept: boolean) => void): Promise<void> {
  if (!("serviceWorker" in navigator)) return tell(false);
  const late = setTimeout(tell, PATIENCE, false);
  try {
    const registration = await navigator.serviceWorker.register("/kept-pages.js", { scope: folder, updateViaCache: "none" });
    const worker = registration.active ?? (await started(registration));
    const parts = performance.getEntriesByType("resource").map(({ name }) => name);
    tell(await answered(worker, { keep: location.pathname + location.search, parts }));
  } catch {
    tell(false);
  } finally {
    clearTimeout(late);
  }
}

/** The worker once it may be talked to. */
async function started({ installing, waiting, active }: ServiceWorkerRegistration): Promise<ServiceWorker> {
  const worker = installing ?? waiting ?? active;
  if (!worker) throw new Error("no worker was registered");
  if (worker.state === "activated") return worker;
  return new Promise((ready, fail) => {
    worker.addEventListener("statechange", () => {
      if (worker.state === "activated") ready(worker);
      if (worker.state === "redundant") fail(new Error("the worker was not started"));
    });
  });
}

function answered(worker: ServiceWorker, message: { readonly keep: string; readonly parts: readonly string[] }): Promise<boolean> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((done) => {
    port1.onmessage = ({ data }: MessageEvent<{ kept: boolean }>) => done(data.kept);
    worker.postMessage(message, [port2]);
  });
}
