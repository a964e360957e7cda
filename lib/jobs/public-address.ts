import { lookup as lookUp, type LookupAddress, type LookupOptions } from "node:dns";
import { BlockList, isIP, type LookupFunction } from "node:net";
import { CalendarFault } from "./calendar-fault";

/**
 * Whether an address is one of the open internet: not this machine, a private network, or set aside for something else
 * (the IANA registries of special-purpose addresses, IPv4 and IPv6, after RFC 6890).
 */
export function isPublicAddress(address: string): boolean {
  const family = isIP(address);
  if (family === 4) return !closedV4.check(address, "ipv4");
  // A zone names a link of this machine.
  return family === 6 && !address.includes("%") && openV6.check(address, "ipv6") && !closedV6.check(address, "ipv6");
}

/** Throws a {@link CalendarFault} where the address is not a public one. */
export function requirePublic(address: string): void {
  if (!isPublicAddress(address)) throw new CalendarFault("private-address");
}

/**
 * Looks a name up for a connection. A name that has any address within is refused as a whole, in the very look-up the
 * connection is made by: one made before could be answered otherwise the second time.
 */
export const lookUpPublic: LookupFunction = (hostname, options, done) => {
  lookUp(hostname, { ...(options as LookupOptions), all: true }, (error, addresses: LookupAddress[]) => {
    if (error) return done(error, "");
    const [first] = addresses;
    if (!first || !addresses.every(({ address }) => isPublicAddress(address))) return done(new CalendarFault("private-address") as NodeJS.ErrnoException, "");
    return options.all ? done(null, addresses) : done(null, first.address, first.family);
  });
};

const closedV4 = blocks("ipv4", [
  "0.0.0.0/8", "10.0.0.0/8", "100.64.0.0/10", "127.0.0.0/8", "169.254.0.0/16", "172.16.0.0/12", "192.0.0.0/24", "192.0.2.0/24", "192.88.99.0/24",
  "192.168.0.0/16", "198.18.0.0/15", "198.51.100.0/24", "203.0.113.0/24", "224.0.0.0/4", "240.0.0.0/4",
]);

/** Outside of this nothing is given out for the open internet: loopback, links, private nets and IPv4 in disguise lie there. */
const openV6 = blocks("ipv6", ["2000::/3"]);
/** Within it: protocols, Teredo and 6to4, which wrap an IPv4 address, and addresses for books. */
const closedV6 = blocks("ipv6", ["2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20"]);

function blocks(family: "ipv4" | "ipv6", ranges: readonly string[]): BlockList {
  const list = new BlockList();
  for (const range of ranges) {
    const [net, bits] = range.split("/") as [string, string];
    list.addSubnet(net, Number(bits), family);
  }
  return list;
}
