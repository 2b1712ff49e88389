import { contextBridge, ipcRenderer, webUtils } from 'electron';
import { desktopPort, type PreloadParts } from './desktop-port.ts';

const parts = { ipcRenderer, webUtils } satisfies PreloadParts;
contextBridge.exposeInMainWorld('lotfile', desktopPort(parts));
