// Package book makes the pages of a recipe book out of a workbook: one version
// of a recipe as it would be printed, with the nutrition of the amounts that
// stand on the page, and the whole book with its table, index and report of
// what does not hold together. A Page is a plain value; the writers turn it
// into DOCX, PDF, HTML, Markdown, plain text and a schema.org Recipe. Pure:
// values in, bytes out, and the day is an argument.
package book
