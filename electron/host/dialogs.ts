/** The system's own dialogs, where a host has them. */
export interface Dialogs {
  /** Nothing where the person cancelled. */
  chooseFolder(): Promise<string | undefined>;
  saveAs(suggestedName: string): Promise<string | undefined>;
  showFile(path: string): void;
}
