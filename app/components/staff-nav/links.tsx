"use client";

import { usePathname } from "next/navigation";

interface LinksProps {
  readonly label: string;
  readonly to: readonly { readonly href: string; readonly name: string; readonly holds?: readonly string[] }[];
}

/** The staff pages, the present one marked: the one whose address, or that of a page it holds, the present one begins with, and of those the longest. */
export function Links({ label, to }: LinksProps) {
  const path = usePathname();
  const [here] = to.flatMap((page) => [page.href, ...page.holds ?? []].filter((address) => path === address || path.startsWith(`${address}/`)).map((address) => ({ page, address })))
    .sort((a, b) => b.address.length - a.address.length);
  return (
    <nav aria-label={label}>
      <ul>
        {to.map((page) => <li key={page.href}><a href={page.href} aria-current={page === here?.page ? (path === page.href ? "page" : "true") : undefined}>{page.name}</a></li>)}
      </ul>
    </nav>
  );
}
