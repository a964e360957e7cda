import { NextResponse, type NextRequest } from "next/server";

/**
 * Gives every page its Content-Security-Policy. Only scripts and styles that carry the nonce of this one answer run,
 * so markup that someone smuggled into a name or a note can do nothing. Pages are therefore rendered per request.
 */
export function proxy(request: NextRequest): NextResponse {
  const nonce = btoa(crypto.randomUUID());
  const policy = contentSecurityPolicy(nonce, process.env.NODE_ENV === "development");
  const headers = new Headers(request.headers);
  headers.set("x-nonce", nonce);
  headers.set("Content-Security-Policy", policy);
  // A page does not know its own address; whoever has to sign in first comes back to it.
  headers.set("x-padwright-path", request.nextUrl.pathname + request.nextUrl.search);
  const response = NextResponse.next({ request: { headers } });
  response.headers.set("Content-Security-Policy", policy);
  return response;
}

function contentSecurityPolicy(nonce: string, development: boolean): string {
  return [
    "default-src 'self'",
    // In development React evaluates code to show where an error came from.
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${development ? " 'unsafe-eval'" : ""}`,
    `style-src 'self' ${development ? "'unsafe-inline'" : `'nonce-${nonce}'`}`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join("; ");
}

/**
 * Everything but the built files, what answers no markup (the API, and the address that takes files, whose body would be cut off where no more of it is
 * kept for here and for there) and prefetches (whose answer is not a document).
 */
export const config = {
  matcher: [
    {
      source: "/((?!api/|manage/inventory/upload$|_next/static|_next/image|favicon.ico|icon.svg).*)",
      missing: [
        { type: "header", key: "next-router-prefetch" },
        { type: "header", key: "purpose", value: "prefetch" },
      ],
    },
  ],
};
