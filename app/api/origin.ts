/** The address people reach this application by, such as `https://stay.example`, without a slash at its end. */
function originOf(request: Request): string {
  const { headers, url } = request;
  return `${headers.get("x-padwright-proto") ?? new URL(url).protocol.slice(0, -1)}://${headers.get("host") ?? new URL(url).host}`;
}

/**
 * Whether a request that counts by its cookie comes from a page of this application: browsers say where it comes from in a way that
 * no page can forge. One that says nothing does not.
 */
export function isSameOrigin(request: Request): boolean {
  const site = request.headers.get("sec-fetch-site");
  if (site !== null) return site === "same-origin";
  return request.headers.get("origin") === originOf(request);
}
