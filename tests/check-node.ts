/** better-sqlite3 crashes on Node 20, so a test run on the system's Node stops here with a sentence instead. */
const major = Number(process.versions.node.split('.')[0]);
if (major < 24) {
  throw new Error(
    `The tests need the project's own Node 24, this is ${process.versions.node}: start them with "npm test" or "npx vitest".`,
  );
}
