import type { Configuration } from 'electron-builder';

export interface PackPlaces {
  /** The built program. */
  readonly app: string;
  readonly out: string;
  /** Icons and the Mac's entitlements. */
  readonly resources: string;
  readonly electronVersion: string;
  /** A folder with Electron's own files, where they are not to be fetched. */
  readonly electronDist?: string | undefined;
}

/** Keys to sign with are in the environment of whoever releases, never here. */
function signs(...names: readonly string[]): boolean {
  return names.some((name) => (process.env[name] ?? '') !== '');
}

/** What packing needs to know: three systems, one program, every fuse set the safe way. */
export function builderConfig(places: PackPlaces): Configuration {
  const { app, out, resources, electronVersion, electronDist } = places;
  const macKeys = signs('CSC_LINK', 'CSC_NAME');
  return {
    appId: 'org.lotfile.desktop',
    productName: 'Lotfile',
    executableName: 'lotfile',
    copyright: 'The people who work on Lotfile',
    directories: { app, output: out, buildResources: resources },
    electronVersion,
    ...(electronDist === undefined ? {} : { electronDist }),
    // better-sqlite3 and sharp bring their binaries along.
    npmRebuild: false,
    nodeGypRebuild: false,
    buildDependenciesFromSource: false,
    files: ['**/*'],
    asar: true,
    // Libraries the system loads itself, and papers that are handed to workers as files.
    asarUnpack: ['**/*.node', '**/node_modules/@img/**', 'sample-project/papers/**'],
    electronLanguages: ['en-US', 'en'],
    publish: null,
    electronFuses: {
      runAsNode: false,
      enableCookieEncryption: true,
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      enableEmbeddedAsarIntegrityValidation: true,
      onlyLoadAppFromAsar: true,
      loadBrowserProcessSpecificV8Snapshot: false,
      grantFileProtocolExtraPrivileges: false,
      resetAdHocDarwinSignature: true,
    },
    win: { target: ['nsis'], icon: 'icon.png' },
    nsis: {
      oneClick: false,
      perMachine: false,
      allowToChangeInstallationDirectory: true,
      // Lots are the person's own: taking the program away leaves them.
      deleteAppDataOnUninstall: false,
    },
    mac: {
      target: ['dmg'],
      icon: 'icon.png',
      category: 'public.app-category.productivity',
      hardenedRuntime: true,
      gatekeeperAssess: false,
      entitlements: 'entitlements.mac.plist',
      entitlementsInherit: 'entitlements.mac.plist',
      ...(macKeys ? {} : { identity: null }),
      notarize: macKeys && signs('APPLE_API_KEY', 'APPLE_ID'),
    },
    linux: {
      target: ['AppImage', 'deb'],
      icon: 'icon.png',
      category: 'Office',
      maintainer: 'Lotfile <lotfile@example.invalid>',
      synopsis: 'Papers of an owner-built house, and the packets each office asks for',
    },
  };
}
