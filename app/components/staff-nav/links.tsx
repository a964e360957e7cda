"use client";

import { usePathname } from "next/navigation";

interface LinksProps {
  readonly label: string;
  readonly to: readonly { readonly href: string; readonly name: string }[];
}

/** The staff pages, the present one marked: the one whose address the present one begins with, and of those the longest. */
export function Links({ label, to }: LinksProps) {
  const path = usePathname();
  const here = to.filter(({ href }) => path === href || path.startsWith(`${href}/`)).sort((a, b) => b.href.length - a.href.length)[0];
  return (
    <nav aria-label={label}>
      <ul>
        {to.map(({ href, name }) => <li key={href}><a href={href} aria-current={href === here?.href ? (path === href ? "page" : "true") : undefined}>{name}</a></li>)}
      </ul>
    </nav>
  );
}
