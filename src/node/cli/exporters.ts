import { CSV_EXPORTER } from './csv-exporter.ts';
import { PDF_EXPORTERS } from './pdf-exporters.ts';
import type { ShellExporter } from './shell-exporter.ts';

/** Formats of the shell; those of text are in core/interchange. One file, one test, one row. */
export const SHELL_EXPORTERS: readonly ShellExporter[] = [...PDF_EXPORTERS, CSV_EXPORTER];
