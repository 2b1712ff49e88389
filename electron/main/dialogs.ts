import type { Dialogs } from '../host/dialogs.ts';
import type { Parts } from './parts.ts';

/** The system's own dialogs. */
export function dialogsOf({ dialog, shell }: Parts): Dialogs {
  return {
    chooseFolder: async () => {
      const { canceled, filePaths } = await dialog.showOpenDialog({
        title: 'Open a lot',
        buttonLabel: 'Open',
        message: 'Choose the folder that holds lot.sqlite.',
        properties: ['openDirectory'],
      });
      return canceled ? undefined : filePaths[0];
    },
    saveAs: async (suggestedName) => {
      const { canceled, filePath } = await dialog.showSaveDialog({
        title: 'Save a copy',
        defaultPath: suggestedName,
        properties: ['showOverwriteConfirmation', 'createDirectory'],
      });
      return canceled || filePath === '' ? undefined : filePath;
    },
    showFile: (path) => shell.showItemInFolder(path),
  };
}
