// Package tables writes a plan for spreadsheets and programs: Seats and
// Workbook a line a seat, PlanJSON everything. ReadPlan reads plan.json back.
package tables
