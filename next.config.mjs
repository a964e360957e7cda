/** For everything that is served; pages get their Content-Security-Policy with its nonce in proxy.ts. */
const securityHeaders = [
  { key: "X-Content-Type-Options", value: "nosniff" },
  { key: "X-Frame-Options", value: "DENY" },
  { key: "Referrer-Policy", value: "strict-origin-when-cross-origin" },
  { key: "Cross-Origin-Opener-Policy", value: "same-origin" },
  { key: "Permissions-Policy", value: "camera=(), microphone=(), geolocation=(), browsing-topics=()" },
];

// A guest's stay: the address is the secret. Other hosts never learn it, and no search engine keeps it. Our own must, or forms are refused without script.
const privateHeaders = [
  { key: "Referrer-Policy", value: "same-origin" },
  { key: "X-Robots-Tag", value: "noindex, nofollow" },
];

/** @type {import("next").NextConfig} */
const config = {
  poweredByHeader: false,
  reactStrictMode: true,
  // These find files and threads beside themselves, which a bundle would take from them.
  serverExternalPackages: ["piscina", "pino", "pg", "postgres", "@prisma/client", "@prisma/adapter-pg", "@react-pdf/renderer"],
  // The gate checks types over tests and scripts as well; a start from a fresh clone need not wait for it again.
  typescript: { ignoreBuildErrors: true },
  headers: async () => [{ source: "/:path*", headers: securityHeaders }, { source: "/stay/:path*", headers: privateHeaders }],
};

export default config;
