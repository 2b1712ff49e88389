import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { init, type WrappedPdfiumModule } from '@embedpdf/pdfium';

/** The few things of the WebAssembly runtime that we touch; its own types lean on a package that isn't there. */
interface Heap {
  /** Grows: never keep it over a call. */
  readonly HEAPU8: Uint8Array;
  readonly wasmExports: { malloc(size: number): number; free(pointer: number): void };
  addFunction(callback: (...args: number[]) => number, signature: string): number;
  removeFunction(index: number): void;
  setValue(pointer: number, value: number, type: string): void;
  getValue(pointer: number, type: string): number;
}

export interface Pdfium {
  readonly call: WrappedPdfiumModule;
  readonly heap: Heap;
}

function isHeap(value: unknown): value is Heap {
  return (
    typeof value === 'object' &&
    value !== null &&
    'HEAPU8' in value &&
    value.HEAPU8 instanceof Uint8Array &&
    'wasmExports' in value &&
    'addFunction' in value &&
    'setValue' in value
  );
}

async function start(): Promise<Pdfium> {
  const file = readFileSync(fileURLToPath(import.meta.resolve('@embedpdf/pdfium/pdfium.wasm')));
  const wasmBinary = new ArrayBuffer(file.byteLength);
  new Uint8Array(wasmBinary).set(file);
  const overrides = { wasmBinary };
  const call = await init(overrides);
  call.PDFiumExt_Init();
  if (!isHeap(call.pdfium)) throw new Error('The PDF reader has another shape than expected.');
  return { call, heap: call.pdfium };
}

let started: Promise<Pdfium> | undefined;

/**
 * PDFium compiled to WebAssembly, one per process; about 40 ms the first time. It shares no line with what makes
 * pages or packets: whoever writes a file never judges it.
 */
export function pdfium(): Promise<Pdfium> {
  started ??= start();
  return started;
}

/** True for a fault inside the reader (WebAssembly's RuntimeError), not of the program around it. */
export function isReaderFault(problem: unknown): boolean {
  return problem instanceof Error && problem.name === 'RuntimeError';
}

/**
 * Lets the next one who asks start afresh: after a fault inside the reader nothing in its memory can be relied on.
 */
export function forgetPdfium(): void {
  started = undefined;
}

/** Runs `use` with a piece of the reader's memory, and gives it back whatever happens. */
export function withMemory<T>(heap: Heap, size: number, use: (pointer: number) => T): T {
  const pointer = heap.wasmExports.malloc(size);
  if (pointer === 0) throw new Error('The PDF reader ran out of memory.');
  try {
    return use(pointer);
  } finally {
    heap.wasmExports.free(pointer);
  }
}
