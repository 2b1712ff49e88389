import { closeSync, openSync, writeSync } from 'node:fs';
import { type Pdfium, pdfium, withMemory } from '../../reader/pdfium-module.ts';
import type { ByteSource } from './byte-source.ts';

/** An open document of the independent reader. Close it, or its memory stays taken. */
export interface ReaderDocument {
  readonly reader: Pdfium;
  readonly handle: number;
  readonly form: number;
  readonly pageCount: number;
  close(): void;
}

export type OpenOutcome =
  | { readonly ok: true; readonly document: ReaderDocument }
  | { readonly ok: false; readonly why: 'password' | 'unknown lock' | 'damaged' };

/** fpdfview.h: FPDF_ERR_PASSWORD, FPDF_ERR_SECURITY. */
const passwordError = 4;
const securityError = 5;

function whyNot(reader: Pdfium): 'password' | 'unknown lock' | 'damaged' {
  const code = reader.call.FPDF_GetLastError();
  if (code === passwordError) return 'password';
  return code === securityError ? 'unknown lock' : 'damaged';
}

/** FPDF_FILEACCESS: length, a function that reads a block, its parameter; four bytes each. */
function giveAccess(reader: Pdfium, source: ByteSource): { readonly pointer: number; release(): void } {
  const { heap } = reader;
  const read = heap.addFunction((_param = 0, position = 0, buffer = 0, size = 0) => {
    const start = buffer >>> 0;
    return source.read(position >>> 0, heap.HEAPU8.subarray(start, start + (size >>> 0))) ? 1 : 0;
  }, 'iiiii');
  const pointer = heap.wasmExports.malloc(12);
  heap.setValue(pointer, source.length, 'i32');
  heap.setValue(pointer + 4, read, 'i32');
  heap.setValue(pointer + 8, 0, 'i32');
  return {
    pointer,
    release() {
      heap.wasmExports.free(pointer);
      heap.removeFunction(read);
      source.close();
    },
  };
}

/** Opens bytes with PDFium; they are read block by block, the document stays on disk. */
export async function openDocument(source: ByteSource, password = ''): Promise<OpenOutcome> {
  const reader = await pdfium();
  const { call } = reader;
  const access = giveAccess(reader, source);
  const handle = call.FPDF_LoadCustomDocument(access.pointer, password);
  if (handle === 0) {
    const why = whyNot(reader);
    access.release();
    return { ok: false, why };
  }
  const info = call.PDFiumExt_OpenFormFillInfo();
  const form = call.PDFiumExt_InitFormFillEnvironment(handle, info);
  const close = () => {
    call.PDFiumExt_ExitFormFillEnvironment(form);
    call.PDFiumExt_CloseFormFillInfo(info);
    call.FPDF_CloseDocument(handle);
    access.release();
  };
  return { ok: true, document: { reader, handle, form, pageCount: call.FPDF_GetPageCount(handle), close } };
}

/** Size of a page in default units; -1 where there is no page behind the number. */
export function pageSize({ reader, handle }: ReaderDocument, index: number): { width: number; height: number } {
  const { call, heap } = reader;
  return withMemory(heap, 16, (at) => {
    if (call.FPDF_GetPageSizeByIndex(handle, index, at, at + 8) === 0) return { width: -1, height: -1 };
    return { width: heap.getValue(at, 'double'), height: heap.getValue(at + 8, 'double') };
  });
}

/** True where there is a page behind the number: a file may claim more pages than it has. */
export function hasPage(document: ReaderDocument, index: number): boolean {
  return pageSize(document, index).width >= 0;
}

/** fpdf_save.h: FPDF_REMOVE_SECURITY. */
const removeSecurity = 3;

/** Writes the document anew as PDFium understood it, without encryption. False where it could not. */
export function saveAnew(document: ReaderDocument, path: string): boolean {
  return saveHandle(document.reader, document.handle, path);
}

/** Writes a new document that holds the pages alone: forms, layers and names stay behind. False where it could not. */
export function savePages(document: ReaderDocument, path: string): boolean {
  const { reader, handle } = document;
  const fresh = reader.call.FPDF_CreateNewDocument();
  if (fresh === 0) return false;
  try {
    return reader.call.FPDF_ImportPagesByIndex(fresh, handle, 0, 0, 0) && saveHandle(reader, fresh, path);
  } finally {
    reader.call.FPDF_CloseDocument(fresh);
  }
}

function saveHandle({ call, heap }: Pdfium, handle: number, path: string): boolean {
  const fd = openSync(path, 'w');
  const write = heap.addFunction((_self = 0, data = 0, size = 0) => {
    const start = data >>> 0;
    writeSync(fd, heap.HEAPU8, start, size >>> 0);
    return 1;
  }, 'iiii');
  const pointer = heap.wasmExports.malloc(8);
  heap.setValue(pointer, 1, 'i32');
  heap.setValue(pointer + 4, write, 'i32');
  try {
    return call.FPDF_SaveAsCopy(handle, pointer, removeSecurity);
  } finally {
    heap.wasmExports.free(pointer);
    heap.removeFunction(write);
    closeSync(fd);
  }
}
