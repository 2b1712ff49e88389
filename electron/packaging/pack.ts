import { build, Platform } from 'electron-builder';
import { builderConfig, type PackPlaces } from './builder-config.ts';

export type PackFor = 'windows' | 'mac' | 'linux';

const platforms: Readonly<Record<PackFor, Platform>> = {
  windows: Platform.WINDOWS,
  mac: Platform.MAC,
  linux: Platform.LINUX,
};

export interface PackOptions extends PackPlaces {
  readonly project: string;
  readonly for: PackFor;
  /** Only the program's folder, no installer. */
  readonly folderOnly: boolean;
}

/** Packs the built program. @returns the files that were made. */
export function pack({ project, for: system, folderOnly, ...places }: PackOptions): Promise<string[]> {
  return build({
    projectDir: project,
    targets: platforms[system].createTarget(folderOnly ? 'dir' : null),
    config: builderConfig(places),
  });
}
