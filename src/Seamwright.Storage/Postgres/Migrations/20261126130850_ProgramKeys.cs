using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Seamwright.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class ProgramKeys : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ProgramKeys",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Hash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Beginning = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Scopes = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Account = table.Column<Guid>(type: "uuid", nullable: false),
                    Made = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Ends = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Used = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    TakenBack = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_ProgramKeys", x => x.Id);
                    table.ForeignKey(
                        name: "FK_ProgramKeys_Accounts_Account",
                        column: x => x.Account,
                        principalTable: "Accounts",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "KeptAnswers",
                columns: table => new
                {
                    ProgramKey = table.Column<Guid>(type: "uuid", nullable: false),
                    Name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Request = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    Run = table.Column<Guid>(type: "uuid", nullable: false),
                    Began = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    Status = table.Column<int>(type: "integer", nullable: true),
                    Body = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    Tag = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    Location = table.Column<string>(type: "text", nullable: true, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_KeptAnswers", x => new { x.ProgramKey, x.Name });
                    table.ForeignKey(
                        name: "FK_KeptAnswers_ProgramKeys_ProgramKey",
                        column: x => x.ProgramKey,
                        principalTable: "ProgramKeys",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_KeptAnswers_Began",
                table: "KeptAnswers",
                column: "Began");

            migrationBuilder.CreateIndex(
                name: "IX_ProgramKeys_Account",
                table: "ProgramKeys",
                column: "Account");

            migrationBuilder.CreateIndex(
                name: "IX_ProgramKeys_Hash",
                table: "ProgramKeys",
                column: "Hash",
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "KeptAnswers");

            migrationBuilder.DropTable(
                name: "ProgramKeys");
        }
    }
}
