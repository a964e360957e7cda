/**
 * Notes where `request` came from and whether it came by https, in headers that nobody outside can write: what was sent
 * under their names is replaced. Behind `proxies` of the house's own the nearest of them says it, each having added at the end.
 */
export function noteClient(request, proxies) {
  const forwarded = String(request.headers["x-forwarded-for"] ?? "").split(",").map((part) => part.trim());
  const address = proxies > 0 ? forwarded.at(-proxies) : request.socket.remoteAddress;
  const proto = proxies > 0 ? String(request.headers["x-forwarded-proto"] ?? "").split(",").at(-1).trim() : "http";
  request.headers["x-padwright-client"] = address || request.socket.remoteAddress || "";
  request.headers["x-padwright-proto"] = proto === "https" ? "https" : "http";
}
