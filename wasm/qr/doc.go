// Package qr writes QR codes by ISO/IEC 18004: digits and bytes as they come,
// versions 1 to 40, error correction levels L and M.
package qr
