// Package boards tries other boards for a plan before wood is bought.
//
// It knows plans, boards of the catalog, the arranger and the check. It does not
// know plan files, sheets or terminals.
package boards
