/**
 * A service worker that keeps the last opened pages of some kinds, with what they load, so that they can be read where
 * there is no signal. Nothing else of the application passes through it: it is registered for the folders of those
 * pages, answers for them alone, and lets every other request go as if it were not there.
 *
 * One cache a page, named by kind and address: what is forgotten is forgotten whole. A page asks to be kept once it has
 * loaded (app/components/kept-page); a kept one is asked for over the network first.
 */

/** What may be kept: which addresses, and how many of them at most. Another kind of page is one more line. */
const kinds = [
  { name: "card", page: /^\/(?:stay\/[\w-]{20,100}|sites\/[^/]+)\/card$/, most: 10 },
  { name: "survey", page: /^\/manage\/survey\/(?!sheet$)[^/]+$/, most: 40 },
];

/** A network that has not answered after this, where the page is kept, is as good as none, ms. */
const PATIENCE = 6_000;
/** What was kept longer ago is forgotten: a stay is over by then, ms. */
const KEPT_FOR = 90 * 24 * 3_600_000;
const KEPT_AT = "x-kept-at";
const PREFIX = "kept-page";

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const { request } = event, url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  if (request.mode === "navigate") {
    if (kindOf(url)) event.respondWith(openPage(request, url));
    else event.respondWith(openOther(request, url));
  } else if (isPart(url)) event.respondWith(loadPart(request));
});

/** `{ keep: address, parts: [addresses] }` is answered on the message's port by `{ kept: true }`, or false where there is no room or no network. */
self.addEventListener("message", (event) => {
  const { keep, parts } = event.data ?? {}, [port] = event.ports;
  if (typeof keep !== "string" || !Array.isArray(parts) || !port) return;
  event.waitUntil(keepPage(new URL(keep, self.location.origin), parts).then((kept) => port.postMessage({ kept }), () => port.postMessage({ kept: false })));
});

function kindOf({ origin, pathname }) {
  return origin === self.location.origin ? kinds.find(({ page }) => page.test(pathname)) : undefined;
}

/** Built scripts, styles and fonts, whose names change with what is in them, and the icon. */
function isPart({ origin, pathname }) {
  return origin === self.location.origin && (pathname.startsWith("/_next/static/") || pathname === "/icon.svg" || pathname === "/favicon.ico");
}

function cacheName({ name }, { pathname, search }) {
  return `${PREFIX} ${name} ${pathname}${search}`;
}

/** Network first; the kept copy where there is none, it is too slow or it fails; forgotten where the address no longer answers. */
async function openPage(request, url) {
  const kept = await keptPage(url), fetched = fetch(request);
  const answer = await (kept ? Promise.race([fetched, after(PATIENCE)]) : fetched).catch(() => null);
  if (answer && answer.status < 500) {
    if (isGone(answer)) await forgetBelow(url);
    return answer;
  }
  fetched.catch(() => undefined);
  return kept ? told(kept) : (answer ?? fetched);
}

/** A page that is never kept: only looked at for whether what lies below its address is gone, as a stay whose link was taken back. */
async function openOther(request, url) {
  const answer = await fetch(request);
  if (isGone(answer)) await forgetBelow(url);
  return answer;
}

async function loadPart(request) {
  try {
    return await fetch(request);
  } catch (error) {
    const kept = await caches.match(request, { ignoreVary: true });
    if (kept) return kept;
    throw error;
  }
}

function isGone({ status }) {
  return status === 404 || status === 410;
}

async function keptPage(url) {
  const name = cacheName(kindOf(url), url);
  return (await caches.has(name)) ? (await caches.open(name)).match(url.href, { ignoreVary: true }) : undefined;
}

/** The kept page with its notice shown and the time it was kept at in it (app/components/kept-page), and in its head, where the page's script looks for it. */
async function told(kept) {
  const headers = new Headers(kept.headers), at = kept.headers.get(KEPT_AT), when = new Date(at).toLocaleString("en-US", { dateStyle: "medium", timeStyle: "short" });
  for (const name of ["content-encoding", "content-length"]) headers.delete(name);
  const text = (await kept.text())
    .replace(/<head[^>]*>/, (head) => `${head}<meta name="kept-at" content="${at}"/>`)
    .replace('data-kept-notice="" hidden=""', 'data-kept-notice=""')
    .replace('<time data-kept-time="">', `<time data-kept-time="">${when}`);
  return new Response(text, { status: 200, headers });
}

/** Asks for the page once more and keeps it with its parts; whole or not at all. */
async function keepPage(url, parts) {
  const kind = kindOf(url);
  if (!kind) return false;
  const answer = await fetch(url.href, { credentials: "same-origin", cache: "no-store", redirect: "error" });
  if (isGone(answer)) await forgetBelow(url);
  if (!answer.ok) return false;
  const text = await answer.clone().text(), name = cacheName(kind, url);
  const named = [...text.matchAll(/\/_next\/static\/[^"'\\\s<>]+/g)].map(([address]) => address.replaceAll("&amp;", "&"));
  const wanted = new Set([...parts, ...named].map((address) => new URL(address, url)).filter(isPart).map(({ href }) => href));
  const cache = await caches.open(name);
  try {
    await Promise.all([...wanted].map(async (href) => cache.put(href, await part(href))));
    const headers = new Headers(answer.headers);
    headers.set(KEPT_AT, new Date().toISOString());
    await cache.put(url.href, new Response(text, { status: 200, headers }));
  } catch (error) {
    await caches.delete(name);
    throw error;
  }
  await tidy();
  return true;
}

async function part(href) {
  const answer = await fetch(href, { credentials: "same-origin" });
  if (!answer.ok) throw new Error(`${href} answered ${answer.status}`);
  return answer;
}

/** Forgets what was kept too long ago, and of each kind all but the latest. */
async function tidy() {
  const kept = [];
  for (const name of await caches.keys()) {
    const [prefix, kind, address] = name.split(" ");
    if (prefix !== PREFIX) continue;
    const page = await (await caches.open(name)).match(address, { ignoreVary: true }), at = Date.parse(page?.headers.get(KEPT_AT) ?? "");
    kept.push({ name, kind, at: Number.isNaN(at) ? 0 : at });
  }
  kept.sort((a, b) => b.at - a.at);
  const over = kept.filter(({ kind, at }, i) => at < Date.now() - KEPT_FOR || kept.slice(0, i).filter((one) => one.kind === kind).length >= (kinds.find(({ name }) => name === kind)?.most ?? 0));
  await Promise.all(over.map(({ name }) => caches.delete(name)));
}

/** Forgets a page and every page below its address. */
async function forgetBelow({ pathname }) {
  const gone = (await caches.keys()).filter((name) => {
    const [prefix, , address = ""] = name.split(" "), path = address.split("?")[0];
    return prefix === PREFIX && (path === pathname || path.startsWith(`${pathname}/`));
  });
  await Promise.all(gone.map((name) => caches.delete(name)));
}

function after(ms) {
  return new Promise((_, fail) => setTimeout(fail, ms, new Error("no answer")));
}
