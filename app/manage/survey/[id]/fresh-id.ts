/** An id that no other step has, in the shape of a UUID (RFC 9562, version 4). `crypto.randomUUID` is not there on a page that came over plain http. */
export function freshId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return [...bytes].map((byte, i) => `${[4, 6, 8, 10].includes(i) ? "-" : ""}${byte.toString(16).padStart(2, "0")}`).join("");
}
