/*
 * The floors of the house. A room may import only rooms that stand below it; each entry names what a room
 * may see. DEVELOPERS.md draws the same picture; tests/architecture asserts that this file really ran.
 */
const rooms = {
  units: [],
  theory: ["units"],
  dsp: ["units"],
  hearing: ["units", "theory", "dsp"],
  scoring: ["units", "hearing"],
  fit: ["units", "theory", "dsp", "hearing"],
  instrument: ["units", "theory"],
  places: ["units", "theory", "instrument"],
  notation: ["units", "theory", "instrument"],
  lesson: ["units", "theory", "instrument"],
  synth: ["units", "theory", "instrument", "notation"],
  document: ["units", "theory", "hearing", "instrument", "places", "notation", "lesson"],
  contracts: ["units", "theory", "hearing", "fit", "instrument", "places", "notation", "lesson", "document"],
};
const pureRooms = Object.keys(rooms);
const ground = [...pureRooms];
const upper = {
  server: [...ground],
  client: [...ground],
  cli: [...ground, "server"],
};
const roomRules = Object.entries({ ...rooms, ...upper }).map(([room, seen]) => ({
  name: `floor-${room}`,
  severity: "error",
  comment: `lib/${room} may import only: ${seen.join(", ") || "nothing"}`,
  from: { path: `^lib/${room}/` },
  // The start command alone seeds the demo, which stands beside the schema.
  to: {
    path: "^(lib|app|tests|prisma)/",
    pathNot: `^(lib/(${[room, ...seen].join("|")})${room === "cli" ? "|prisma/seed" : ""})/`,
  },
}));
const packagesOf = {
  units: [],
  theory: ["@tonaljs/note"],
  dsp: [],
  hearing: [],
  scoring: [],
  fit: [],
  instrument: [],
  places: [],
  notation: [],
  lesson: [],
  synth: [],
  document: ["yjs", "lib0"],
  contracts: ["zod"],
};
const packageRules = Object.entries(packagesOf).map(([room, packages]) => ({
  name: `packages-${room}`,
  severity: "error",
  comment: `lib/${room} is pure: it may use only ${packages.join(", ") || "no package"}`,
  from: { path: `^lib/${room}/` },
  to: {
    dependencyTypes: ["npm", "npm-dev", "npm-optional", "npm-peer", "core", "unknown", "undetermined"],
    ...(packages.length > 0 ? { pathNot: `node_modules/(${packages.join("|")})/` } : {}),
  },
}));

module.exports = {
  forbidden: [
    ...roomRules,
    ...packageRules,
    {
      name: "app-sees-services",
      severity: "error",
      comment: "Pages and routes never reach the command line.",
      from: { path: "^app/" },
      to: { path: "^(lib/cli|tests)/" },
    },
    {
      name: "client-parts-never-see-the-server",
      severity: "error",
      comment: "Parts of a page that run in the browser (app/**/parts) must not import the server.",
      from: { path: "^app/.*/parts/" },
      to: { path: "^lib/server/" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
    {
      name: "no-unresolved",
      severity: "error",
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "lib/server/db/generated" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default", "types"],
    },
  },
};
