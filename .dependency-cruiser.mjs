import { outerRooms, permittedRooms, purePackages, pureRooms } from "./scripts/lint/rooms.mjs";

const rooms = [...pureRooms, ...Object.keys(outerRooms)];

/** A room imports only from the rooms that its place in the order permits. */
const order = rooms.map((room) => ({
  name: `room-order-${room}`,
  comment: `lib/${room} may import only lib/{${permittedRooms(room).join(",")}}`,
  severity: "error",
  from: { path: `^lib/${room}/` },
  to: { path: "^(lib|app|scripts|tests|seed)/", pathNot: `^lib/(${permittedRooms(room).join("|")})/` },
}));

/** @type {import("dependency-cruiser").IConfiguration} */
const configuration = {
  forbidden: [
    ...order,
    {
      name: "known-rooms",
      comment: "every folder of lib/ is a room with a place in the order (scripts/lint/rooms.mjs)",
      severity: "error",
      from: { path: "^lib/[^/]+/", pathNot: `^lib/(${rooms.join("|")})/` },
      to: {},
    },
    {
      name: "pure-rooms",
      comment: "pure rooms import no database, framework, Node built-in or environment",
      severity: "error",
      from: { path: `^lib/(${pureRooms.join("|")})/` },
      to: { pathNot: `^(lib/|node_modules/(${purePackages.map((name) => name.split("/")[0]).join("|")})/)` },
    },
    {
      name: "no-app-from-cli",
      comment: "the command line and the pages share rooms, not each other",
      severity: "error",
      from: { path: "^app/" },
      to: { path: "^(lib/cli|scripts|tests)/" },
    },
    {
      name: "no-cycles",
      comment: "modules that import each other in a ring cannot be read or tested one at a time",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "resolvable",
      comment: "every import names a file or a package that is there",
      severity: "error",
      from: {},
      to: { couldNotResolve: true, pathNot: "generated" },
    },
    {
      name: "declared",
      comment: "what ships imports only packages named in dependencies",
      severity: "error",
      from: { path: "^(lib|app)/" },
      to: { dependencyTypes: ["npm-dev", "npm-no-pkg", "npm-unknown"], pathNot: "node_modules/@types/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules|^lib/store/generated" },
    exclude: { path: "^(\\.next|dist|\\.data)/" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default", "types"],
      extensions: [".ts", ".tsx", ".mjs", ".js", ".json", ".css"],
    },
  },
};

export default configuration;
