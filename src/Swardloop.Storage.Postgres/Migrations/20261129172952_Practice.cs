using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Swardloop.Storage.Postgres.Migrations
{
    /// <inheritdoc />
    public partial class Practice : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "Practice",
                columns: table => new
                {
                    Id = table.Column<Guid>(type: "uuid", nullable: false),
                    Account = table.Column<Guid>(type: "uuid", nullable: false),
                    Level = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Seed = table.Column<long>(type: "bigint", nullable: false),
                    StartedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    EndedAt = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    Steps = table.Column<string>(type: "text", nullable: false),
                    StepCount = table.Column<int>(type: "integer", nullable: false),
                    Money = table.Column<double>(type: "double precision", nullable: false),
                    Minutes = table.Column<double>(type: "double precision", nullable: false),
                    Cured = table.Column<bool>(type: "boolean", nullable: true),
                    Score = table.Column<double>(type: "double precision", nullable: true),
                    CardMoney = table.Column<double>(type: "double precision", nullable: true),
                    KnownMoney = table.Column<double>(type: "double precision", nullable: true),
                    EngineMoney = table.Column<double>(type: "double precision", nullable: true),
                    Engine = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_Practice", x => x.Id);
                    table.ForeignKey(
                        name: "FK_Practice_AspNetUsers_Account",
                        column: x => x.Account,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "IX_Practice_Account",
                table: "Practice",
                column: "Account");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "Practice");
        }
    }
}
