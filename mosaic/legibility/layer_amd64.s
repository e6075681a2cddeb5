#include "textflag.h"

// func fourSums(sums *[4][4]float32, rows, in []float32)
//
// SSE, which every amd64 has: the four sums of a row are the lanes of one register, and a
// product is rounded before it is added, as in sumsOf.
TEXT ·fourSums(SB), NOSPLIT, $0-56
	MOVQ sums+0(FP), DI
	MOVQ rows_base+8(FP), R8
	MOVQ in_base+32(FP), SI
	MOVQ in_len+40(FP), CX
	MOVQ CX, AX
	SHLQ $2, AX
	LEAQ (R8)(AX*1), R9
	LEAQ (R9)(AX*1), R10
	LEAQ (R10)(AX*1), R11
	XORPS X0, X0
	XORPS X1, X1
	XORPS X2, X2
	XORPS X3, X3
	XORQ BX, BX

next:
	MOVUPS (SI)(BX*4), X4
	MOVUPS (R8)(BX*4), X5
	MOVUPS (R9)(BX*4), X6
	MOVUPS (R10)(BX*4), X7
	MOVUPS (R11)(BX*4), X8
	MULPS X4, X5
	MULPS X4, X6
	MULPS X4, X7
	MULPS X4, X8
	ADDPS X5, X0
	ADDPS X6, X1
	ADDPS X7, X2
	ADDPS X8, X3
	ADDQ $4, BX
	CMPQ BX, CX
	JLT next

	MOVUPS X0, (DI)
	MOVUPS X1, 16(DI)
	MOVUPS X2, 32(DI)
	MOVUPS X3, 48(DI)
	RET
