using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Seamwright.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class FirstShop : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Audit",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    At = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Who = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    What = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Subject = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Origin = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Facts = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Audit", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Photos",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Repair = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Place = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    Kind = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Taken = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Recorded = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TakenBy = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Hash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Bytes = table.Column<long>(type: "bigint", nullable: false),
                    Type = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Photos", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Plans",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Parent = table.Column<Guid>(type: "uuid", nullable: true),
                    Repair = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    InputHash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Seed = table.Column<int>(type: "integer", nullable: true),
                    Engine = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Created = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    CreatedBy = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Answer = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Ready = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Cost = table.Column<decimal>(type: "numeric", nullable: true),
                    Currency = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Plans", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Readings",
                columns: table => new
                {
                    Source = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    At = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Celsius = table.Column<double>(type: "double precision", nullable: false),
                    HumidityPercent = table.Column<double>(type: "double precision", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Readings", x => new { x.Source, x.At });
                });

            migrationBuilder.CreateTable(
                name: "Repairs",
                columns: table => new
                {
                    Id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Title = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Search = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    State = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Arrives = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Promised = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Created = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Document = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Changed = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ChangedBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Repairs", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "Settings",
                columns: table => new
                {
                    Key = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Value = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Changed = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ChangedBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Settings", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "Sheets",
                columns: table => new
                {
                    Id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Use = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Document = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Changed = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ChangedBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Sheets", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "ShopDocuments",
                columns: table => new
                {
                    Id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Document = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Changed = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ChangedBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ShopDocuments", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "WorkLog",
                columns: table => new
                {
                    Sequence = table.Column<long>(type: "bigint", nullable: false),
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    At = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    OffsetSeconds = table.Column<int>(type: "integer", nullable: false),
                    Recorded = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Who = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Kind = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Repair = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    Facts = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Previous = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Hash = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_WorkLog", x => x.Sequence);
                });

            migrationBuilder.CreateTable(
                name: "Packs",
                columns: table => new
                {
                    Id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Material = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Lot = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Expires = table.Column<DateOnly>(type: "date", nullable: true),
                    Gone = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    TakenFor = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    TakenBy = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    TakenAt = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    Document = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Version = table.Column<long>(type: "bigint", nullable: false),
                    Changed = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    ChangedBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Packs", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Packs_Repairs_TakenFor",
                        column: x => x.TakenFor,
                        principalTable: "Repairs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "Slots",
                columns: table => new
                {
                    At = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Repair = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Taken = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    TakenBy = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Slots", x => x.At);
                    table.ForeignKey(
                        name: "FK_Slots_Repairs_Repair",
                        column: x => x.Repair,
                        principalTable: "Repairs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Audit_At",
                table: "Audit",
                column: "At");

            migrationBuilder.CreateIndex(
                name: "IX_Packs_Gone_Material",
                table: "Packs",
                columns: new[] { "Gone", "Material" });

            migrationBuilder.CreateIndex(
                name: "IX_Packs_TakenFor",
                table: "Packs",
                column: "TakenFor");

            migrationBuilder.CreateIndex(
                name: "IX_Photos_Hash",
                table: "Photos",
                column: "Hash");

            migrationBuilder.CreateIndex(
                name: "IX_Photos_Repair_Taken",
                table: "Photos",
                columns: new[] { "Repair", "Taken" });

            migrationBuilder.CreateIndex(
                name: "IX_Plans_Repair_Created",
                table: "Plans",
                columns: new[] { "Repair", "Created" });

            migrationBuilder.CreateIndex(
                name: "IX_Repairs_State_Promised",
                table: "Repairs",
                columns: new[] { "State", "Promised" });

            migrationBuilder.CreateIndex(
                name: "IX_Slots_Repair",
                table: "Slots",
                column: "Repair");

            migrationBuilder.CreateIndex(
                name: "IX_WorkLog_Id",
                table: "WorkLog",
                column: "Id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_WorkLog_Repair_Sequence",
                table: "WorkLog",
                columns: new[] { "Repair", "Sequence" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Audit");

            migrationBuilder.DropTable(
                name: "Packs");

            migrationBuilder.DropTable(
                name: "Photos");

            migrationBuilder.DropTable(
                name: "Plans");

            migrationBuilder.DropTable(
                name: "Readings");

            migrationBuilder.DropTable(
                name: "Settings");

            migrationBuilder.DropTable(
                name: "Sheets");

            migrationBuilder.DropTable(
                name: "ShopDocuments");

            migrationBuilder.DropTable(
                name: "Slots");

            migrationBuilder.DropTable(
                name: "WorkLog");

            migrationBuilder.DropTable(
                name: "Repairs");
        }
    }
}
