using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Seamwright.Storage.Sqlite.Migrations
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
                    Id = table.Column<Guid>(type: "TEXT", nullable: false),
                    Hash = table.Column<string>(type: "TEXT", nullable: false),
                    Beginning = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Scopes = table.Column<string>(type: "TEXT", nullable: false),
                    Account = table.Column<Guid>(type: "TEXT", nullable: false),
                    Made = table.Column<long>(type: "INTEGER", nullable: false),
                    Ends = table.Column<long>(type: "INTEGER", nullable: false),
                    Used = table.Column<long>(type: "INTEGER", nullable: true),
                    TakenBack = table.Column<long>(type: "INTEGER", nullable: true)
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
                    ProgramKey = table.Column<Guid>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Request = table.Column<string>(type: "TEXT", nullable: false),
                    Run = table.Column<Guid>(type: "TEXT", nullable: false),
                    Began = table.Column<long>(type: "INTEGER", nullable: false),
                    Status = table.Column<int>(type: "INTEGER", nullable: true),
                    Body = table.Column<string>(type: "TEXT", nullable: true),
                    Tag = table.Column<string>(type: "TEXT", nullable: true),
                    Location = table.Column<string>(type: "TEXT", nullable: true)
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
